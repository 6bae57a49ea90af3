import { describe, expect, it } from 'vitest';
import {
  beta,
  binomial,
  chiSquare,
  fisherF,
  gamma,
  noncentralityInterval,
  noncentralT,
  normal,
  studentisedRange,
  studentT,
} from '../../../src/statistics/index.js';

describe('the examples of the documentation', () => {
  it.each<[string, number, number]>([
    ['normal().upperQuantile(0.025)', normal().upperQuantile(0.025), 1.9599639845400543],
    ['studentT(10).upperQuantile(0.025)', studentT(10).upperQuantile(0.025), 2.2281388519862753],
    ['fisherF(3, 20).upperQuantile(0.05)', fisherF(3, 20).upperQuantile(0.05), 3.098391212140781],
    ['chiSquare(1).upperQuantile(0.05)', chiSquare(1).upperQuantile(0.05), 3.84145882069413],
    ['gamma(2, 1).upperTail(3)', gamma(2, 1).upperTail(3), 0.19914827347145575],
    ['beta(2, 3).lowerTail(0.4)', beta(2, 3).lowerTail(0.4), 0.5247999999999998],
    ['binomial(10, 0.5).upperTail(7)', binomial(10, 0.5).upperTail(7), 0.05468750000000001],
    [
      'noncentralT(10, 2).upperTail(2.2281388519862753)',
      noncentralT(10, 2).upperTail(2.2281388519862753),
      0.43955206357506327,
    ],
    ['studentisedRange(3, 10).upperQuantile(0.05)', studentisedRange(3, 10).upperQuantile(0.05), 3.8767767500131827],
    ['noncentralityInterval(2.5, 20, 0.95).lower', noncentralityInterval(2.5, 20, 0.95).lower, 0.3673138429753621],
    ['noncentralityInterval(2.5, 20, 0.95).upper', noncentralityInterval(2.5, 20, 0.95).upper, 4.578713550001156],
  ])('%s', (_call, found, printed) => {
    expect(Math.abs(found / printed - 1)).toBeLessThan(1e-13);
  });
});
