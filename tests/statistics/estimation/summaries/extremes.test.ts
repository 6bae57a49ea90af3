import { describe, expect, it } from 'vitest';
import {
  blocked,
  boundsOfDifference,
  compensatedSum,
  deming,
  extremes,
  isStatisticsError,
  jamesIndex,
  oneWayAnalysis,
  productLimitMean,
  repeatability,
  york,
} from '../../../../src/statistics/index.js';
import { ofSweep } from '../../../helpers/sweep.js';

function faultOf(call: () => unknown): string {
  try {
    call();
  } catch (error) {
    if (isStatisticsError(error)) return error.fault;
    throw error;
  }
  return 'none';
}

/** As a caller without types sees a function. */
const untyped = (call: unknown) => call as (...values: unknown[]) => unknown;

describe('extremes(values)', () => {
  it('gives the least and the greatest, and refuses none at all', () => {
    expect(extremes([3, -1, 2])).toEqual({ least: -1, greatest: 3 });
    expect(faultOf(() => extremes([]))).toBe('too-few');
    expect(faultOf(() => extremes([1, Number.NaN]))).toBe('not-finite');
  });
});

/** Beyond some 125,000, values handed over one by one are too many for the stack. */
describe('more values than a function can be given one by one', () => {
  const count = ofSweep(200_000, 150_000);
  const x = Array.from({ length: count }, (_, at) => at % 977);
  const y = x.map((value, at) => 2 * value + (at % 13));

  it('do not overflow the stack of deming, york, boundsOfDifference and productLimitMean', () => {
    const ones = x.map(() => 1);
    expect(deming({ x, y }).range).toEqual({ from: 0, to: 976 });
    expect(york({ x, y, uncertaintyX: ones, uncertaintyY: ones }).range).toEqual({ from: 0, to: 976 });
    expect(boundsOfDifference({ x, y, missing: { x: 1, y: 0 } }).upper).toBeGreaterThan(-977);
    expect(productLimitMean(x.map((value) => ({ kind: 'measured', value }))).estimate).toBeGreaterThan(0);
  }, 20_000);
});

describe('callers without types', () => {
  it.each([
    ['oneWayAnalysis([1, 2])', () => untyped(oneWayAnalysis)([1, 2])],
    ['repeatability([1, 2])', () => untyped(repeatability)([1, 2])],
    ['blocked([1])', () => untyped(blocked)([1])],
    [
      'york with a misspelt key',
      () => untyped(york)({ x: [1, 2, 3], y: [1, 2, 4], uncertaintyX: [1, 1, 1], uncertainty: [1, 1, 1] }),
    ],
  ])('%s is refused as no list of values', (_, call) => {
    expect(faultOf(call)).toBe('not-finite');
  });

  it('jamesIndex([]) is refused as no numbers of guesses', () => {
    expect(faultOf(() => untyped(jamesIndex)([]))).toBe('out-of-range');
  });
});

describe('compensatedSum(values)', () => {
  it('refuses what is no number, and sums beyond doubles', () => {
    expect(faultOf(() => compensatedSum([1, Number.NaN]))).toBe('not-finite');
    expect(faultOf(() => compensatedSum([1e308, 1e308]))).toBe('out-of-range');
    expect(compensatedSum([])).toBe(0);
  });
});
