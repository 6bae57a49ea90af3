import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import {
  type CalibrationFile,
  calibrationTable,
  countCalibrationCoverage,
  firstTrials,
  isInBand,
} from './calibration-trials.js';

const read = (name: string) => readFileSync(new URL(name, import.meta.url), 'utf8');
const file: CalibrationFile = JSON.parse(read('calibration.json'));

describe('the committed coverage of intervals of calibration and agreement', () => {
  it('has every method inside 93.5 to 96.5 % on 24 walls, and none beyond 93.5 to 98 % on 8', () => {
    expect(file.runs.map(({ walls }) => walls)).toEqual([24, 8]);
    for (const { walls, methods } of file.runs) {
      for (const one of methods) {
        const share = one.held / one.trials;
        expect([one.label, one.trials]).toEqual([one.label, 2_000]);
        expect([one.label, walls === 24 ? isInBand(one) : share > 0.935 && share < 0.98]).toEqual([one.label, true]);
      }
    }
  });

  it('begins as a run made now does', () => {
    for (const { walls, seed, methods } of file.runs) {
      const again = countCalibrationCoverage(walls, firstTrials, seed);
      expect(again.map(({ heldAtFirst }) => heldAtFirst)).toEqual(methods.map(({ heldAtFirst }) => heldAtFirst));
    }
  });

  it('stands in the table as in the numbers', () => {
    expect(read('calibration.md')).toBe(calibrationTable(file));
  });
});
