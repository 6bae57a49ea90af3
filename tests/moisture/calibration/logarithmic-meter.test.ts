import { describe, expect, it } from 'vitest';
import { instrumentsOf } from '../../../src/findings/instruments/instruments-of.js';
import {
  type CalibrationPair,
  calibrateByUncertainties,
  calibrateMeter,
  calibrationPairs,
  moistureByMeter,
  moistureReadings,
  pairsOnScale,
  readingOnScale,
} from '../../../src/moisture/index.js';
import type { Reading } from '../../../src/trial/index.js';
import { expectRelative } from '../../helpers/expect-relative.js';
import { madeTrial, soundProtocol } from '../../helpers/made-trial.js';
import reference from '../../reference/logarithmic-meter/logarithmic-meter.json' with { type: 'json' };

const { wall, moisture, ohms, errorRatio } = reference;
const pairs: readonly CalibrationPair[] = ohms.map((reading, at) => ({
  ...{ wall: wall[at] as string, station: '', day: '2024-03-12', material: 'brick', daysApart: 0 },
  ...{ moisture: moisture[at] as number, reading },
}));
const options = { errorRatio, readingRises: 'against-moisture', scale: 'logarithmic' } as const;

describe('a meter whose readings run over decades', () => {
  const { logarithmic, straight } = reference;
  const calibration = calibrateMeter(pairs, options);

  it('is calibrated on the logarithmic scale as R does: line, jackknife by walls, scatter, miss on unseen walls', () => {
    const { line, onUnseenWalls } = calibration;
    expectRelative(line.slope, logarithmic.slope, 1e-9, 'slope');
    expectRelative(line.intercept, logarithmic.intercept, 1e-9, 'intercept');
    expectRelative(Math.sqrt(line.uncertainty.varianceOfSlope), logarithmic.slopeError, 1e-8, 'standard error');
    expectRelative(line.slopeInterval.upper, logarithmic.slope + logarithmic.reach * logarithmic.slopeError, 1e-8);
    expectRelative(line.scatter, logarithmic.scatter, 1e-9, 'scatter');
    expectRelative(onUnseenWalls.rootMeanSquare, logarithmic.rootMeanSquareUnseen, 1e-9, 'unseen walls');
  });

  it('turns 47 kΩ into moisture with R’s interval (Fieller)', () => {
    const { value, lower, upper, kind } = moistureByMeter(calibration, reference.reading);
    expectRelative(value, logarithmic.moisture, 1e-9, 'moisture');
    expectRelative(lower, logarithmic.lower, 1e-8, 'lower');
    expectRelative(upper, logarithmic.upper, 1e-8, 'upper');
    expect(kind).toBe('within-range');
  });

  it('misses unseen walls by many times as much on a straight line in ohms, as in R', () => {
    const line = calibrateMeter(pairs, { errorRatio: straight.errorRatio, readingRises: 'against-moisture' });
    // With so large a ratio the line is the plain regression but for rounding.
    expectRelative(line.onUnseenWalls.rootMeanSquare, straight.rootMeanSquareUnseen, 1e-4);
    expect(line.onUnseenWalls.rootMeanSquare).toBeGreaterThan(10 * calibration.onUnseenWalls.rootMeanSquare);
  });

  it('keeps the readings as the meter showed them, refuses 0 and less, and turns uncertainties: 10 % is 0.0434 of a decade', () => {
    expect(calibration.pairs[0]?.reading).toBe(ohms[0]);
    expect(readingOnScale(-4, 'linear')).toBe(-4);
    expect(() => readingOnScale(0, 'logarithmic')).toThrow(/above 0/);
    expect(() =>
      calibrateMeter([...pairs.slice(1), { ...(pairs[0] as CalibrationPair), reading: -1 }], options),
    ).toThrow(/above 0/);
    const withBoth = pairs.map((pair) => ({
      ...pair,
      moistureUncertainty: 0.3,
      readingUncertainty: 0.1 * pair.reading,
    }));
    // 0.1/ln 10, in another language.
    expect(pairsOnScale(withBoth, 'logarithmic')[5]?.readingUncertainty).toBeCloseTo(0.0434294482, 9);
    const york = calibrateByUncertainties(withBoth, { readingRises: 'against-moisture', scale: 'logarithmic' });
    // Equal uncertainties: York's line is Deming's with the ratio of their squares.
    const deming = calibrateMeter(pairs, { ...options, errorRatio: (0.0434294482 / 0.3) ** 2 });
    expectRelative(york.line.slope, deming.line.slope, 1e-7);
  });

  it('averages readings of a day by their logarithms: 100 and 10 000 are 1000, worked by hand', () => {
    const trial = ohmsTrial([100, 10_000]);
    const of = (scale: 'linear' | 'logarithmic') =>
      calibrationPairs(trial, moistureReadings(trial), { instrument: 'pins', scale }).pairs[0]?.reading;
    expect(of('logarithmic')).toBeCloseTo(1000, 9);
    expect(of('linear')).toBe(5050);
  });
});

/** Cores and ohms at every wall of the reference, half of the walls treated; R = 10^(6.5 − 0.25 u) without error beside made cores. */
function ohmsTrial(values?: readonly number[], scale: 'linear' | 'logarithmic' = 'logarithmic') {
  const names = [...new Set(wall)];
  const made = names.map((name, at) => {
    const before = 4 + 0.5 * at;
    return {
      wall: name,
      arm: at % 2 === 0 ? 'treated' : 'sham',
      before,
      after: before - (at % 2 === 0 ? 3 : 0.2) + 0.1 * (Math.floor(at / 2) % 3),
    };
  });
  const trial = madeTrial(made);
  const pins = trial.readings.flatMap((reading): Reading[] => {
    if (reading.value.kind !== 'measured') return [];
    const shown = values ?? [10 ** (6.5 - 0.25 * reading.value.value)];
    return shown.map((value) => ({ ...reading, instrument: 'pins', value: { kind: 'measured', value } }));
  });
  const instruments = [
    { instrument: 'core', kind: 'gravimetric' as const },
    { instrument: 'pins', kind: 'resistance' as const, readingRises: 'against-moisture' as const, scale },
  ];
  return { ...trial, protocol: { ...soundProtocol, instruments }, readings: [...trial.readings, ...pins] };
}

describe('instrumentsOf(trial, readings) with a meter in ohms', () => {
  const factsOf = (scale: 'linear' | 'logarithmic') => {
    const trial = ohmsTrial(undefined, scale);
    const facts = instrumentsOf(trial, moistureReadings(trial)).find(({ instrument }) => instrument === 'pins');
    if (facts === undefined) throw new Error('nothing of the pins');
    return facts;
  };

  it('gives the answer that made the readings by the logarithm, −2.8 points, and misses it by a straight line', () => {
    const calibrated = (scale: 'linear' | 'logarithmic') => {
      const result = factsOf(scale).answers.find((answer) => answer.scale === 'calibrated')?.result;
      if (result?.kind !== 'computed') throw new Error('not calibrated');
      return result.value.estimate;
    };
    expect(calibrated('logarithmic')).toBeCloseTo(-2.8, 9);
    expect(Math.abs(calibrated('linear') + 2.8)).toBeGreaterThan(0.1);
  });

  it('compares readings beside the outcome on that scale: −0.25 decades a point', () => {
    const { unit, answers } = factsOf('logarithmic');
    expect(unit).toBe('log₁₀ of the index');
    const [asRead] = answers;
    expect(asRead?.result).toMatchObject({ kind: 'computed', value: { estimate: expect.closeTo(0.25 * 2.8, 9) } });
    expect(factsOf('linear').unit).toBe('index');
  });
});
