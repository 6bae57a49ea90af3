import { missingRows } from './rows/missing.js';
import { testRows } from './rows/row.js';

testRows(missingRows);
