import { resultRows } from './rows/result.js';
import { testRows } from './rows/row.js';

testRows(resultRows);
