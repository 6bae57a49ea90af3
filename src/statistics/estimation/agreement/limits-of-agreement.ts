import { checkedResult, checkLevel, checkSample } from '../../checked-input.js';
import { normal } from '../../distributions/normal.js';
import { studentT } from '../../distributions/student-t.js';
import type { Interval } from '../../interval.js';
import { StatisticsError } from '../../statistics-error.js';
import { mean } from '../summaries/mean.js';
import { variance } from '../summaries/variance.js';
import { varianceSum, type WeightedSquare } from './variance-sum.js';

export interface LimitWithInterval {
  readonly estimate: number;
  readonly interval: Interval;
}

/** Between which limits the differences of two methods lie, for the stated share of single differences. */
export interface LimitsOfAgreement {
  /** Mean difference, with its interval. */
  readonly bias: LimitWithInterval;
  /** Of single differences. */
  readonly standardDeviation: number;
  readonly lower: LimitWithInterval;
  readonly upper: LimitWithInterval;
  /** Share of differences that the limits are meant to hold. */
  readonly share: number;
  readonly n: number;
}

export interface AgreementOptions {
  /** Level of the intervals of bias and limits; 0.95 unless told. */
  readonly level?: number;
  /** Share of differences between the limits; 0.95 unless told. */
  readonly share?: number;
}

/**
 * Limits of agreement: mean difference ± z standard deviations, with intervals.
 *
 * Assumes differences that are independent, near to normal, and neither grow nor spread with the size of what is measured: look
 * at them against the means first. For several readings of a thing use `limitsOfRepeated`.
 *
 * @throws StatisticsError `too-few` below three differences, `not-finite`, `no-variation` where all are equal
 * @example limitsOfAgreement([0.3, -0.1, 0.4, 0.2, -0.2]).upper.estimate // 0.6273
 * @source Bland & Altman 1986, Lancet 327:307-310, and 1999, Stat. Methods Med. Res. 8:135-160 (from memory); the limits'
 *   intervals after Zou 2013, whose distances from the limits are those of mean and standard deviation put together
 */
export function limitsOfAgreement(differences: readonly number[], options: AgreementOptions = {}): LimitsOfAgreement {
  const where = 'limitsOfAgreement';
  checkSample(where, 'differences', differences, 3);
  const n = differences.length;
  const meanSquare = variance(differences);
  const squares = [{ weight: 1, meanSquare, degreesOfFreedom: n - 1 }];
  return limits(where, { bias: mean(differences), ofBias: meanSquare / n, freedom: n - 1, squares, n }, options);
}

interface Parts {
  readonly bias: number;
  readonly ofBias: number;
  readonly freedom: number;
  readonly squares: readonly WeightedSquare[];
  readonly n: number;
}

/** Limits from a bias, its variance, and the mean squares that make up the variance of a single difference. */
export function limits(
  where: string,
  parts: Parts,
  { level = 0.95, share = 0.95 }: AgreementOptions,
): LimitsOfAgreement {
  checkLevel(where, level);
  checkLevel(where, share);
  const { value, interval } = varianceSum(parts.squares, level);
  if (!(value > 0))
    throw new StatisticsError(where, 'no-variation', 'needs differences that vary; check for copied readings');
  const z = normal().upperQuantile((1 - share) / 2);
  const { bias } = parts;
  const half = studentT(parts.freedom).upperQuantile((1 - level) / 2) * Math.sqrt(parts.ofBias);
  const standardDeviation = Math.sqrt(value);
  const inward = Math.hypot(half, z * (standardDeviation - Math.sqrt(interval.lower)));
  const outward = Math.hypot(half, z * (Math.sqrt(interval.upper) - standardDeviation));
  const lower = bias - z * standardDeviation;
  const upper = bias + z * standardDeviation;
  return checkedResult(where, {
    bias: { estimate: bias, interval: { level, lower: bias - half, upper: bias + half } },
    standardDeviation,
    lower: { estimate: lower, interval: { level, lower: lower - outward, upper: lower + inward } },
    upper: { estimate: upper, interval: { level, lower: upper - inward, upper: upper + outward } },
    share,
    n: parts.n,
  });
}
