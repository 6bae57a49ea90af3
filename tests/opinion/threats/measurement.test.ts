import { inventedRows } from './rows/invented.js';
import { measurementRows } from './rows/measurement.js';
import { testRows } from './rows/row.js';
import { saltRows } from './rows/salts.js';

testRows([...measurementRows, ...inventedRows, ...saltRows]);
