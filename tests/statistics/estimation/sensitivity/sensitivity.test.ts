import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  boundsOfDifference,
  confoundingOfDifference,
  confoundingOfRatio,
  regressionToTheMean,
  type SelectionByValue,
  shiftToTarget,
} from '../../../../src/statistics/estimation/sensitivity/index.js';
import { isStatisticsError, welch } from '../../../../src/statistics/index.js';

type Case =
  | {
      kind: 'missing';
      name: string;
      x: number[];
      y: number[];
      missing: { x: number; y: number };
      shiftOfX: number;
      shiftOfY: number;
      lower: number;
      upper: number;
    }
  | ({ kind: 'regression'; expected: number; selectedMean: number; meanAgain: number } & Required<SelectionByValue>)
  | { kind: 'ratio'; estimate: number; lower: number; upper: number; forEstimate: number; forLimit: number }
  | { kind: 'difference'; difference: number; standardError: number; forEstimate: number; forLimit: number };

const file = new URL('../../../reference/sensitivity/sensitivity.json', import.meta.url);
const { cases }: { cases: Case[] } = JSON.parse(readFileSync(file, 'utf8'));
const casesOf = <K extends Case['kind']>(kind: K) =>
  cases.filter((one): one is Extract<Case, { kind: K }> => one.kind === kind);

const close = (found: number, wanted: number, relative: number) =>
  expect(Math.abs(found - wanted)).toBeLessThanOrEqual(relative * Math.max(1, Math.abs(wanted)));

describe('sensitivity against R', () => {
  it.each(casesOf('missing'))('shiftToTarget and boundsOfDifference: $name', ({ x, y, missing, ...one }) => {
    const { estimate, interval } = welch(x, y);
    const from = estimate < 0 ? interval.upper : interval.lower;
    const ofX = shiftToTarget({ from, to: 0, group: { observed: x.length, missing: missing.x, sign: 1 } });
    const ofY = shiftToTarget({ from, to: 0, group: { observed: y.length, missing: missing.y, sign: -1 } });
    // R's roots are good to about ten digits.
    close(ofX.shift, one.shiftOfX, 1e-9);
    close(ofY.shift, one.shiftOfY, 1e-9);
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

  it.each(casesOf('ratio'))('confoundingOfRatio: $estimate ($lower to $upper)', (one) => {
    const found = confoundingOfRatio(one);
    close(found.forEstimate, one.forEstimate, 1e-9);
    close(found.forLimit, one.forLimit, 1e-9);
  });

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

  it('confoundingOfRatio: 20.94777 and 15.52336 for smoking and lung cancer (printed with the R package EValue, seen)', () => {
    const found = confoundingOfRatio({ estimate: 10.73, lower: 8.02, upper: 14.36 });
    expect(found.forEstimate.toFixed(5)).toBe('20.94777');
    expect(found.forLimit.toFixed(5)).toBe('15.52336');
  });

  it('confoundingOfRatio: 7.26 for a ratio of 3.9, the paper’s example (from memory; the value seen in a tutorial)', () => {
    expect(confoundingOfRatio({ estimate: 3.9, lower: 1.8, upper: 8.7 }).forEstimate.toFixed(2)).toBe('7.26');
  });
});

describe('sensitivity by hand and at its ends', () => {
  it('shiftToTarget: one wall of ten missing must differ ten times as far as the number has to move', () => {
    const group = { observed: 9, missing: 1, sign: 1 as const };
    expect(shiftToTarget({ from: -0.5, to: 0, group })).toMatchObject({ shift: 5, missingShare: 0.1 });
    expect(shiftToTarget({ from: -0.5, to: 0, group: { ...group, sign: -1 } }).shift).toBe(-5);
  });

  it('confounding of an interval that holds no effect already is 1', () => {
    expect(confoundingOfRatio({ estimate: 1.2, lower: 0.9, upper: 1.6 }).forLimit).toBe(1);
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
    [
      'shiftToTarget, none missing',
      () => shiftToTarget({ from: 1, to: 0, group: { observed: 3, missing: 0, sign: 1 } }),
      'too-few',
    ],
    [
      'shiftToTarget of NaN',
      () => shiftToTarget({ from: Number.NaN, to: 0, group: { observed: 3, missing: 1, sign: 1 } }),
      'not-finite',
    ],
    ['boundsOfDifference of nothing', () => boundsOfDifference({ x: [], y: [1], missing: { x: 1, y: 0 } }), 'too-few'],
    [
      'boundsOfDifference, range turned',
      () => boundsOfDifference({ x: [1], y: [1], missing: { x: 1, y: 0 }, range: { least: 2, greatest: 1 } }),
      'out-of-range',
    ],
    ['confoundingOfRatio of 0', () => confoundingOfRatio({ estimate: 0, lower: 0, upper: 1 }), 'out-of-range'],
    [
      'confoundingOfRatio outside its limits',
      () => confoundingOfRatio({ estimate: 2, lower: 2.1, upper: 3 }),
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
        finiteOrRefused(() => confoundingOfRatio({ estimate: a, lower: b, upper: c }));
        finiteOrRefused(() => confoundingOfDifference({ difference: a, standardError: b }));
        finiteOrRefused(() => shiftToTarget({ from: a, to: b, group: { observed: c, missing: d, sign: 1 } }));
        finiteOrRefused(() =>
          boundsOfDifference({ x: [a], y: [b], missing: { x: 1, y: 1 }, range: { least: c, greatest: d } }),
        );
      }),
      { numRuns: 200 },
    );
  });
});
