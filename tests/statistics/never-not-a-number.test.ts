import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  blocked,
  bootstrap,
  confidenceCurve,
  equivalence,
  glassDeltaOfGroups,
  hedgesGOfGroups,
  hodgesLehmann,
  hodgesLehmannPaired,
  isStatisticsError,
  logResponseRatio,
  minimumEffect,
  paired,
  pooled,
  posteriorOfDifference,
  powerOfT,
  probabilityOfSuperiority,
  randomisationTest,
  ratioOfMeans,
  smallestDetectable,
  trimmed,
  welch,
  wildClusterTest,
} from '../../src/statistics/index.js';

/** Any double at all, with the awkward ones often. */
const number = fc.oneof(
  fc.double(),
  fc.constantFrom(
    0,
    -0,
    1,
    1e-320,
    1e-200,
    1e200,
    -1e200,
    1e308,
    -1e308,
    Number.MAX_VALUE,
    Number.NaN,
    Number.POSITIVE_INFINITY,
  ),
  fc.integer({ min: -3, max: 3 }),
);
const sample = fc.array(number, { maxLength: 6 });
const clustered = (values: readonly number[]) => values.map((value) => [value]);

/** Places in a result where a number is not finite. */
function notFinite(value: unknown, path = ''): string[] {
  if (typeof value === 'number') return Number.isFinite(value) ? [] : [`${path} is ${value}`];
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([key, inside]) => notFinite(inside, `${path}.${key}`));
}

/** Either a result of finite numbers, or a named error. */
function finiteOrRefused(call: () => unknown): void {
  let result: unknown;
  try {
    result = call();
  } catch (error) {
    if (!isStatisticsError(error)) throw error;
    expect(error.message).not.toBe('');
    return;
  }
  expect(notFinite(result)).toEqual([]);
}

describe('a number or a named error, never NaN, whatever goes in', () => {
  it.each<[string, (x: number[], y: number[]) => unknown]>([
    ['welch', (x, y) => welch(x, y)],
    ['pooled', (x, y) => pooled(x, y)],
    ['paired', (x) => paired(x)],
    [
      'blocked',
      (x, y) =>
        blocked([
          { x, y },
          { x: y, y: x },
        ]),
    ],
    ['trimmed', (x, y) => trimmed(x, y)],
    ['ratioOfMeans', (x, y) => ratioOfMeans(x, y)],
    ['hodgesLehmann', (x, y) => hodgesLehmann(x, y, { level: 0.5 })],
    ['hodgesLehmannPaired', (x) => hodgesLehmannPaired(x, { level: 0.5 })],
    ['hedgesGOfGroups', (x, y) => hedgesGOfGroups(x, y)],
    ['glassDeltaOfGroups', (x, y) => glassDeltaOfGroups(x, y)],
    ['logResponseRatio', (x, y) => logResponseRatio(x, y)],
    ['probabilityOfSuperiority', (x, y) => probabilityOfSuperiority(x, y)],
    [
      'randomisationTest',
      (treated, untreated) => randomisationTest({ kind: 'complete', treated, untreated }, { seed: 1, level: 0.5 }),
    ],
    [
      'randomisationTest, drawn',
      (treated, untreated) =>
        randomisationTest({ kind: 'complete', treated, untreated }, { seed: 1, exactUpTo: 0, draws: 29, level: 0.5 }),
    ],
    [
      'bootstrap, bca',
      (x, y) =>
        bootstrap(
          { kind: 'two-groups', treated: clustered(x), untreated: clustered(y) },
          { seed: 1, draws: 49, level: 0.5 },
        ),
    ],
    [
      'bootstrap, studentised',
      (x) =>
        bootstrap(
          { kind: 'one-group', clusters: clustered(x) },
          { seed: 1, draws: 49, level: 0.5, method: 'studentised' },
        ),
    ],
    [
      'wildClusterTest',
      (x, y) =>
        wildClusterTest(
          { kind: 'two-groups', treated: clustered(x), untreated: clustered(y) },
          { seed: 1, draws: 29, level: 0.5 },
        ),
    ],
  ])('%s', (_name, call) => {
    fc.assert(
      fc.property(sample, sample, (x, y) => finiteOrRefused(() => call(x, y))),
      { numRuns: 300 },
    );
  });

  it.each<
    [string, (judged: { estimate: number; standardError: number; degreesOfFreedom: number }, margin: number) => unknown]
  >([
    ['equivalence', (judged, margin) => equivalence(judged, { margin })],
    ['minimumEffect', (judged, margin) => minimumEffect(judged, { margin, better: 'either' })],
    ['confidenceCurve', (judged) => confidenceCurve(judged, { points: 5 })],
    ['powerOfT', (judged, effect) => powerOfT(effect, judged)],
    ['smallestDetectable', (judged) => smallestDetectable(judged)],
    [
      'posteriorOfDifference',
      (judged, margin) =>
        posteriorOfDifference(judged, { margin, prior: { kind: 'sceptical', margin, probabilityBeyond: 0.1 } }),
    ],
  ])('%s', (_name, call) => {
    const judgements = fc.record({ estimate: number, standardError: number, degreesOfFreedom: number });
    fc.assert(
      fc.property(judgements, number, (judged, margin) => finiteOrRefused(() => call(judged, margin))),
      { numRuns: 200 },
    );
  });
});
