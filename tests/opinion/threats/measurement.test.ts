import { inventedRows } from './rows/invented.js';
import { measurementRows } from './rows/measurement.js';
import { testRows } from './rows/row.js';

testRows([...measurementRows, ...inventedRows]);
