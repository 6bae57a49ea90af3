import { describe, expect, it } from 'vitest';
import { bandOfCalibration } from '../../src/findings/instruments/band-of-calibration.js';
import type { InstrumentFacts } from '../../src/findings/instruments/instrument-facts.js';
import {
  type CalibrationPair,
  calibrateByUncertainties,
  calibrateMeter,
  monotoneCalibration,
} from '../../src/moisture/index.js';
import type { Opinion } from '../../src/opinion/opinion.js';
import { calibrationBlocks } from '../../src/report/sections/calibration-blocks.js';
import { blocksInWords } from '../helpers/core-trial.js';
import { soundProtocol } from '../helpers/made-trial.js';

const pairs = Array.from({ length: 24 }, (_, k): CalibrationPair => {
  const moisture = 2 + k / 2;
  return {
    ...{ wall: `W${k % 6}`, station: `s${k}`, day: '2024-03-12', material: 'brick', daysApart: 0 },
    ...{ moisture, reading: 10 + 5 * moisture + Math.sin(3 * k), moistureUncertainty: 0.3, readingUncertainty: 1 },
  };
});
const calibration = calibrateMeter(pairs);
const curve = monotoneCalibration(pairs);
const york = calibrateByUncertainties(pairs);
const none = { kind: 'not-computed', reason: { code: 'differences-do-not-vary' } } as const;

/** The words with a bent curve that misses so many times as far as the line, and pairs so far from York’s line. */
function wordsOf(ofLine: number, beyondStated: number): string {
  const rootMeanSquare = ofLine * calibration.onUnseenWalls.rootMeanSquare;
  const monotone = { ...curve, onUnseenWalls: { ...curve.onUnseenWalls, rootMeanSquare } };
  const facts = { instrument: 'mw', kind: 'microwave', scale: 'linear' } as unknown as InstrumentFacts;
  const value = {
    ...{
      calibration,
      plotted: [],
      band: bandOfCalibration(calibration, 0.95),
      readings: 24,
      outside: 0,
      agreement: none,
      concordance: none,
    },
    monotone: { kind: 'computed' as const, value: monotone },
    byUncertainties: { kind: 'computed' as const, value: { ...york, beyondStated } },
  };
  const opinion = { protocol: soundProtocol } as Opinion;
  return blocksInWords(
    calibrationBlocks(opinion, facts, { material: 'brick', unit: '% by mass', outcome: { kind: 'computed', value } }),
  );
}

describe('calibrationBlocks(opinion, facts, each)', () => {
  it('calls a bent curve clearly better below nine tenths of the line’s miss, and says that this is our convention', () => {
    expect(wordsOf(0.89, 1)).toContain('clearly less (by more than a tenth: our convention)');
    expect(wordsOf(0.91, 1)).toContain('hardly less');
    expect(wordsOf(1.01, 1)).toContain('no less');
  });

  it('takes the stated uncertainties to tell nearly all up to one and a half times, our convention', () => {
    expect(wordsOf(1, 1.49)).toContain('they tell nearly all');
    expect(wordsOf(1, 1.51)).toContain('more than one and a half times (our convention)');
  });
});
