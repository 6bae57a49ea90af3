import { testRows } from './rows/row.js';
import { timingRows } from './rows/timing.js';

testRows(timingRows);
