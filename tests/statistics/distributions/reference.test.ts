import { describe, expect, it } from 'vitest';
import {
  beta,
  binomial,
  chiSquare,
  type Distribution,
  fisherF,
  gamma,
  noncentralityInterval,
  noncentralT,
  normal,
  studentisedRange,
  studentT,
} from '../../../src/statistics/index.js';
import { readReference } from './read-reference.js';
import { relativeError } from './relative-error.js';

interface Case {
  readonly parameters: readonly number[];
  readonly x: number;
  readonly density: number;
  readonly lower: number;
  readonly upper: number;
  readonly base: { readonly lower: number | null; readonly upper: number | null };
  readonly side?: 'lower' | 'upper';
  readonly probability?: number;
  readonly quantile?: number;
}

type Make = (first: number, second: number) => Distribution;

/** The largest relative error allowed, and what makes a distribution of the parameters in the file. */
const families: readonly [name: string, tolerance: number, make: Make][] = [
  ['normal', 1e-15, normal],
  ['student-t', 1e-12, studentT],
  ['gamma', 1e-12, gamma],
  ['chi-square', 1e-12, chiSquare],
  ['beta', 1e-12, beta],
  ['fisher-f', 1e-12, fisherF],
  ['binomial', 1e-12, binomial],
  ['noncentral-t', 1e-9, noncentralT],
  ['studentised-range', 1e-9, studentisedRange],
];

describe.each(families)('%s against arithmetic that is not ours, to a relative %g', (name, tolerance, make) => {
  const cases = readReference<Case>(name);

  it('density', () => {
    for (const { parameters, x, density } of cases) close(make(...pair(parameters)).density(x), density, parameters, x);
  });

  it('lower tail', () => {
    for (const { parameters, x, lower } of cases) close(make(...pair(parameters)).lowerTail(x), lower, parameters, x);
  });

  it('upper tail', () => {
    for (const { parameters, x, upper } of cases) close(make(...pair(parameters)).upperTail(x), upper, parameters, x);
  });

  const inverted = cases.filter(({ quantile }) => quantile !== undefined);
  if (inverted.length > 0) {
    it(`quantile from either side, ${inverted.length} of them`, () => {
      for (const { parameters, side, probability = Number.NaN, quantile = Number.NaN } of inverted) {
        const distribution = make(...pair(parameters));
        const found = side === 'lower' ? distribution.quantile(probability) : distribution.upperQuantile(probability);
        close(found, quantile, parameters, probability);
      }
    });
  }

  it('is no further off than R, or than 1e-13', () => {
    const worst = { ours: 0, base: 0 };
    for (const { parameters, x, lower, upper, base } of cases) {
      const distribution = make(...pair(parameters));
      for (const [ours, theirs, exact] of [
        [distribution.lowerTail(x), base.lower, lower],
        [distribution.upperTail(x), base.upper, upper],
      ] as const) {
        if (theirs === null || exact < smallest) continue;
        worst.ours = Math.max(worst.ours, relativeError(ours, exact));
        worst.base = Math.max(worst.base, relativeError(theirs, exact));
      }
    }
    expect(worst.ours).toBeLessThan(Math.max(worst.base, 1e-13));
  });

  function close(actual: number, expected: number, parameters: readonly number[], at: number): void {
    if (expected < smallest) return;
    const error = relativeError(actual, expected);
    expect(error, `${name}(${parameters.join(', ')}) at ${at}: ${actual} is not ${expected}`).toBeLessThan(tolerance);
  }
});

/** Below this, doubles themselves no longer hold 16 digits. */
const smallest = 1e-305;

function pair(parameters: readonly number[]): [number, number] {
  return [parameters[0] as number, parameters[1] as number];
}

describe('normal().upperQuantile', () => {
  it('agrees with 140-bit arithmetic to a relative 1e-15', () => {
    const quantiles = readReference<{ probability: number; x: number }>('normal', 'quantiles');
    for (const { probability, x } of quantiles) {
      expect(relativeError(normal().upperQuantile(probability), x), `at ${probability}`).toBeLessThan(1e-15);
    }
  });
});

describe('noncentralityInterval', () => {
  it("agrees with R's root-finder over R's own normal and chi-square to a relative 1e-9", () => {
    const cases = readReference<{ t: number; degreesOfFreedom: number; level: number; lower: number; upper: number }>(
      'noncentrality-interval',
    );
    for (const { t, degreesOfFreedom, level, lower, upper } of cases) {
      const limits = noncentralityInterval(t, degreesOfFreedom, level);
      expect(relativeError(limits.lower, lower), `lower limit for t = ${t}`).toBeLessThan(1e-9);
      expect(relativeError(limits.upper, upper), `upper limit for t = ${t}`).toBeLessThan(1e-9);
    }
  });
});
