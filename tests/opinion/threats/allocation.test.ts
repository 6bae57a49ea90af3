import { allocationRows } from './rows/allocation.js';
import { testRows } from './rows/row.js';

testRows(allocationRows);
