import { measurementRows } from './rows/measurement.js';
import { testRows } from './rows/row.js';

testRows(measurementRows);
