import { missingRows } from './rows/missing.js';
import { testRows } from './rows/row.js';
import { stationRows } from './rows/stations.js';

testRows([...missingRows, ...stationRows]);
