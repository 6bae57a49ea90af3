import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  boundsOfDifference,
  confoundingOfDifference,
  regressionToTheMean,
  type SelectionByValue,
} from '../../../../src/statistics/estimation/sensitivity/index.js';
import { isStatisticsError } from '../../../../src/statistics/index.js';

type Case =
  | {
      kind: 'missing';
      name: string;
      x: number[];
      y: number[];
      missing: { x: number; y: number };
      lower: number;
      upper: number;
    }
  | ({ kind: 'regression'; expected: number; selectedMean: number; meanAgain: number } & Required<SelectionByValue>)
  | { kind: 'difference'; difference: number; standardError: number; forEstimate: number; forLimit: number };

const file = new URL('../../../reference/sensitivity/sensitivity.json', import.meta.url);
const { cases }: { cases: Case[] } = JSON.parse(readFileSync(file, 'utf8'));
const casesOf = <K extends Case['kind']>(kind: K) =>
  cases.filter((one): one is Extract<Case, { kind: K }> => one.kind === kind);

const close = (found: number, wanted: number, relative: number) =>
  expect(Math.abs(found - wanted)).toBeLessThanOrEqual(relative * Math.max(1, Math.abs(wanted)));

describe('sensitivity against R', () => {
  it.each(casesOf('missing'))('boundsOfDifference: $name', ({ x, y, missing, ...one }) => {
    const bounds = boundsOfDifference({ x, y, missing });
    close(bounds.lower, one.lower, 1e-12);
    close(bounds.upper, one.upper, 1e-12);
  });

  it.each(casesOf('regression'))(
    'regressionToTheMean: mean $mean, reliability $reliability, $measurements measured, $selected $cutoff',
    (one) => {
      const found = regressionToTheMean(one);
      close(found.expected, one.expected, 1e-9);
      close(found.selectedMean, one.selectedMean, 1e-9);
      close(found.meanAgain, one.meanAgain, 1e-9);
    },
  );

  it.each(casesOf('difference'))('confoundingOfDifference: $difference, standard error $standardError', (one) => {
    const found = confoundingOfDifference(one);
    close(found.forEstimate, one.forEstimate, 1e-9);
    close(found.forLimit, one.forLimit, 1e-9);
  });
});

describe('sensitivity against printed examples', () => {
  // The script of Barnett, van der Pols and Dobson 2005 (its example values seen in a third-party copy).
  it.each([
    [0, '26.972'],
    [0.25, '20.229'],
    [0.5, '13.486'],
    [0.75, '6.743'],
    [1, '0.000'],
  ])('regressionToTheMean: mean 60, deviation 15, below 40, reliability %f: %s', (reliability, printed) => {
    const selection = { mean: 60, standardDeviation: 15, cutoff: 40, selected: 'below' as const, reliability };
    expect(regressionToTheMean(selection).expected.toFixed(3)).toBe(printed);
  });

  it('regressionToTheMean: walls at 7 % picked above 10 % fall back 1.373, 0.778, 0.544 points (computed from the formula)', () => {
    const selection = { mean: 7, standardDeviation: 3, reliability: 0.7, cutoff: 10, selected: 'above' as const };
    const fall = [1, 2, 3].map((measurements) => regressionToTheMean({ ...selection, measurements }).expected);
    expect(fall.map((value) => value.toFixed(3))).toEqual(['1.373', '0.778', '0.544']);
    expect(regressionToTheMean(selection).selectedMean.toFixed(3)).toBe('11.575');
  });
});

describe('sensitivity by hand and at its ends', () => {
  it('confounding of an interval that holds no effect already is 1', () => {
    expect(confoundingOfDifference({ difference: 0.2, standardError: 0.2 }).forLimit).toBe(1);
    expect(confoundingOfDifference({ difference: 0, standardError: 1 })).toMatchObject({ forEstimate: 1, forLimit: 1 });
  });

  it('boundsOfDifference with nothing missing is the difference of means', () => {
    const { lower, upper } = boundsOfDifference({ x: [1, 3], y: [0, 2], missing: { x: 0, y: 0 } });
    expect([lower, upper]).toEqual([1, 1]);
  });

  it('boundsOfDifference hold whatever the missing values were, inside the range', () => {
    const value = fc.double({ min: -9, max: 9, noNaN: true });
    fc.assert(
      fc.property(
        fc.array(value, { minLength: 1, maxLength: 5 }),
        fc.array(value, { minLength: 1, maxLength: 5 }),
        fc.array(value, { maxLength: 3 }),
        fc.array(value, { maxLength: 3 }),
        (x, y, lostX, lostY) => {
          const missing = { x: lostX.length, y: lostY.length };
          const { lower, upper } = boundsOfDifference({ x, y, missing, range: { least: -9, greatest: 9 } });
          const mean = (values: number[]) => values.reduce((sum, one) => sum + one, 0) / values.length;
          const truth = mean([...x, ...lostX]) - mean([...y, ...lostY]);
          expect(truth).toBeGreaterThanOrEqual(lower - 1e-9);
          expect(truth).toBeLessThanOrEqual(upper + 1e-9);
        },
      ),
      { numRuns: 100 },
    );
  });

  it.each<[string, () => unknown, string]>([
    ['boundsOfDifference of nothing', () => boundsOfDifference({ x: [], y: [1], missing: { x: 1, y: 0 } }), 'too-few'],
    [
      'boundsOfDifference, range turned',
      () => boundsOfDifference({ x: [1], y: [1], missing: { x: 1, y: 0 }, range: { least: 2, greatest: 1 } }),
      'out-of-range',
    ],
    [
      'confoundingOfDifference, no error',
      () => confoundingOfDifference({ difference: 1, standardError: 0 }),
      'out-of-range',
    ],
    [
      'confoundingOfDifference, a thousand deviations',
      () => confoundingOfDifference({ difference: 1e3, standardError: 1 }),
      'out-of-range',
    ],
    [
      'regressionToTheMean, reliability 2',
      () => regressionToTheMean({ mean: 0, standardDeviation: 1, reliability: 2, cutoff: 1, selected: 'above' }),
      'out-of-range',
    ],
    [
      'regressionToTheMean, beyond all units',
      () => regressionToTheMean({ mean: 0, standardDeviation: 1, reliability: 0.5, cutoff: 60, selected: 'above' }),
      'out-of-range',
    ],
    [
      'regressionToTheMean, half a measurement',
      () =>
        regressionToTheMean({
          mean: 0,
          standardDeviation: 1,
          reliability: 0.5,
          cutoff: 1,
          selected: 'above',
          measurements: 0.5,
        }),
      'out-of-range',
    ],
  ])('%s is refused', (_case, call, fault) => {
    expect(call).toThrow(expect.objectContaining({ name: 'StatisticsError', fault }));
  });

  it('never give NaN, whatever goes in', () => {
    const any = fc.oneof(fc.double(), fc.constantFrom(0, 1e308, -1e308, 1e-320), fc.integer({ min: -3, max: 3 }));
    const finiteOrRefused = (call: () => object) => {
      try {
        for (const value of Object.values(call()))
          if (typeof value === 'number') expect(Number.isFinite(value)).toBe(true);
      } catch (error) {
        if (!isStatisticsError(error)) throw error;
      }
    };
    fc.assert(
      fc.property(any, any, any, any, (a, b, c, d) => {
        finiteOrRefused(() =>
          regressionToTheMean({ mean: a, standardDeviation: b, reliability: c, cutoff: d, selected: 'above' }),
        );
        finiteOrRefused(() => confoundingOfDifference({ difference: a, standardError: b }));
        finiteOrRefused(() =>
          boundsOfDifference({ x: [a], y: [b], missing: { x: 1, y: 1 }, range: { least: c, greatest: d } }),
        );
      }),
      { numRuns: 200 },
    );
  });
});
