import { describe, expect, it } from 'vitest';
import { lastDigits } from '../../../src/analysis/index.js';
import { inSteps } from '../../../src/analysis/judging/in-steps.js';
import { integerBelow, normalDraws, randomStream } from '../../../src/statistics/index.js';
import type { Core, Trial } from '../../../src/trial/index.js';
import { coreTrial, origin } from '../../helpers/core-trial.js';
import { stationTrial } from '../../helpers/station-trial.js';
import { ofSweep } from '../../helpers/sweep.js';

describe('inSteps', () => {
  it.each([
    [[4.2, 7.9], 0.1, true],
    [[4.25, 7.9, 8], 0.05, true],
    [[48, 62], 2, true],
    [[1e-7, 0.5], 1e-6, false],
    [[0, 0], 1, true],
  ])('%j is read in steps of %d', (values, step, isRead) => {
    const found = inSteps(values);
    expect([found.step, found.isRead]).toEqual([step, isRead]);
    for (const [at, value] of values.entries()) expect((found.steps[at] ?? 0) * step).toBeCloseTo(value, 5);
  });
});

/** Readings of 6 walls a side, 3 stations and `visits` visits a window, from a seed, rounded to `decimals`. */
function readingTrial(seed: number, rounded: (value: number, at: number) => number, visits = 3, spread = 12): Trial {
  const draws = normalDraws(randomStream(seed), 12 * 3 * 2 * visits);
  let at = 0;
  return stationTrial({
    visits,
    value: ({ wall, place, window, isTreated }) => {
      const raw = 60 + wall - 8 * place - (window === 'after' && isTreated ? 15 : 0) + spread * (draws[at++] ?? 0);
      return rounded(raw, at);
    },
  });
}

const toTenths = (value: number) => Math.round(value * 10) / 10;

describe('lastDigits', () => {
  it('counts the digits of a hundred numbers and more, and of 99 none', () => {
    const trial = readingTrial(1, toTenths);
    const [found] = lastDigits(trial).tested;
    expect(found).toMatchObject({ of: 'readings', step: 0.1, numbers: 216, finerThanStated: 0 });
    expect(found?.counts.reduce((sum, count) => sum + count, 0)).toBe(216);
    expect(found?.bySide.treated.reduce((sum, count) => sum + count, 0)).toBe(108);
    expect(lastDigits({ ...trial, readings: trial.readings.slice(0, 100) }).tested).toHaveLength(1);
    expect(lastDigits({ ...trial, readings: trial.readings.slice(0, 99) })).toEqual({
      tested: [],
      pValue: 1,
      isAlarm: false,
    });
  });

  it('does not test a meter whose numbers span fewer than a hundred steps, nor computed numbers', () => {
    expect(lastDigits(readingTrial(2, Math.round)).tested).toEqual([]);
    expect(lastDigits(readingTrial(2, (value) => value / 3)).tested).toEqual([]);
  });

  it('the limits: 100 steps in the middle nine tenths, and 50 numbers on a side', () => {
    const counting = (count: number, treated: number) => {
      const { readings, ...trial } = readingTrial(1, Math.round);
      const numbered = readings.slice(0, count).map((one, at) => ({
        ...one,
        wall: at < treated ? 'W0' : 'W1',
        value: { kind: 'measured' as const, value: at },
      }));
      return lastDigits({ ...trial, readings: numbered }).tested;
    };
    expect(counting(111, 55)).toEqual([]);
    expect(counting(112, 55)).toHaveLength(1);
    expect(counting(112, 50)[0]?.sides).toBeDefined();
    expect(counting(112, 49)[0]?.sides).toBeUndefined();
  });

  it('a display in steps of 0.05 has all ten digits of its own', () => {
    const found = lastDigits(readingTrial(3, (value) => Math.round(value * 20) / 20));
    expect(found.tested[0]?.step).toBe(0.05);
    expect(found.pValue).toBeGreaterThan(0.01);
  });

  it('somebody who avoids 0 and 5 is found, in at least 95 of 100 seeded trials', () => {
    let alarms = 0;
    for (let seed = 0; seed < 100; seed++) {
      const avoiding = (value: number) => (Math.round(value * 10) % 5 === 0 ? toTenths(value + 0.2) : toTenths(value));
      if (lastDigits(readingTrial(seed, avoiding)).isAlarm) alarms++;
    }
    expect(alarms).toBeGreaterThanOrEqual(95);
  });

  it('digits made up in one arm alone show between the arms', () => {
    const trial = readingTrial(9, toTenths, 6);
    const readings = trial.readings.map((one) => {
      if (one.value.kind !== 'measured' || Number(one.wall.slice(1)) % 2 === 1) return one;
      const steps = Math.round(one.value.value * 10);
      return {
        ...one,
        value: { kind: 'measured' as const, value: (Math.floor(steps / 10) * 10 + (steps % 3) + 2) / 10 },
      };
    });
    const { tested, isAlarm } = lastDigits({ ...trial, readings });
    expect(isAlarm).toBe(true);
    expect(tested[0]?.sides?.pValue).toBeLessThan(1e-6);
    expect(tested[0]?.windows?.pValue).toBeGreaterThan(0.01);
  });

  const trials = ofSweep(600, 200);
  it(`measured numbers: an alarm in at most 1 % of ${trials} seeded trials`, () => {
    let alarms = 0;
    for (let seed = 0; seed < trials; seed++) if (lastDigits(readingTrial(500 + seed, toTenths)).isAlarm) alarms++;
    expect(alarms).toBeLessThanOrEqual(trials / 100);
  });

  describe('masses', () => {
    const stream = randomStream(6);
    const cores = Array.from({ length: 80 }, (_, at): Partial<Core> => {
      const dry_g = (3500 + integerBelow(stream, 2000)) / 100;
      const wet_g = Math.round(dry_g * 108 + integerBelow(stream, 300)) / 100;
      return { dry_g, wet_g, station: `s${at}`, date: at % 2 === 0 ? '2024-04-01' : '2025-04-01', origin };
    });

    it('takes wet and dry masses, the dry mass of a core weighed again once', () => {
      expect(lastDigits(coreTrial(cores)).tested[0]).toMatchObject({ of: 'masses', step: 0.01, numbers: 160 });
      const again = [
        ...cores,
        ...cores.map(({ wet_g = 0, ...core }) => ({ ...core, wet_g: Math.round(100 * wet_g - 31) / 100 })),
      ];
      expect(lastDigits(coreTrial(again)).tested[0]?.numbers).toBe(240);
    });

    it('counts masses finer than the balance that the plan states', () => {
      const coarse = coreTrial(cores, {
        protocol: {
          ...coreTrial([]).protocol,
          instruments: [{ instrument: 'core', kind: 'gravimetric', resolution_g: 0.1 }],
        },
      });
      const written = cores.flatMap(({ wet_g = 0, dry_g = 0 }) => [wet_g, dry_g]);
      const expected = written.filter((value) => Math.round(value * 100) % 10 !== 0).length;
      expect(lastDigits(coarse).tested[0]?.finerThanStated).toBe(expected);
      expect(lastDigits(coreTrial(cores)).tested[0]?.finerThanStated).toBe(0);
    });
  });
});
