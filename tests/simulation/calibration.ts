// Estimates the coverage of 95 % intervals of calibration and agreement and writes calibration.json and calibration.md
// beside this script. npm run coverage:calibration: a minute or two.
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { type CalibrationFile, calibrationTable, countCalibrationCoverage } from './calibration-trials.js';

const TRIALS = 2_000;
const folder = join(process.cwd(), 'tests', 'simulation');

const runs = [
  { walls: 24, seed: 20250401 },
  { walls: 8, seed: 20250501 },
].map(({ walls, seed }) => ({ walls, seed, methods: countCalibrationCoverage(walls, TRIALS, seed) }));
const file: CalibrationFile = { source: '`npm run coverage:calibration`', runs };
writeFileSync(join(folder, 'calibration.json'), `${JSON.stringify(file, null, 1)}\n`);
writeFileSync(join(folder, 'calibration.md'), calibrationTable(file));
process.stdout.write(calibrationTable(file));
