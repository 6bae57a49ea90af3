import { airAndWaterRows } from './rows/air-and-water.js';
import { electrodeRows } from './rows/electrodes.js';
import { testRows } from './rows/row.js';
import { timingRows } from './rows/timing.js';
import { trayRows } from './rows/trays.js';
import { treatmentDayRows } from './rows/treatment-days.js';
import { waterSourceRows } from './rows/water-source.js';

testRows([...timingRows, ...treatmentDayRows, ...trayRows, ...electrodeRows, ...airAndWaterRows, ...waterSourceRows]);
