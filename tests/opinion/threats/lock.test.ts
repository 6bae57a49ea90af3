import { lockRows } from './rows/lock.js';
import { testRows } from './rows/row.js';

testRows(lockRows);
