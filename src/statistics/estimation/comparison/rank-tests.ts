import { checkSample } from '../../checked-input.js';
import { normal } from '../../distributions/normal.js';
import { StatisticsError } from '../../statistics-error.js';
import { doubledRanks, tieSizes } from './mid-ranks.js';

/** A test by ranks, beside the interval of `hodgesLehmann` and `hodgesLehmannPaired`. */
export interface RankTest {
  readonly kind: 'mann-whitney' | 'signed-rank';
  /** Pairs of values in which x is the larger, equal ones by half; or the sum of the ranks of the differences above zero. */
  readonly statistic: number;
  /** Two-sided: chance of a statistic as far from its expectation, or farther, given the values that came. */
  readonly pValue: number;
  readonly distribution: 'exact' | 'normal-approximation';
}

/** Counted up to so many values, ties included; beyond them by the normal curve. */
const mostCounted = 60;

/**
 * Mann and Whitney's test (Wilcoxon's rank sum test) of two independent groups. Exact for 60 values or fewer, with ties as they came;
 * else by the normal curve, with the variance that the ties leave and a continuity correction of one half.
 *
 * @throws StatisticsError `too-few` when a group is empty, `not-finite`, `no-variation` where all values are equal
 * @example mannWhitney([-3.1, -1.8, -2.6, -2.2], [-1.2, -2.0, -0.6, -1.4]).pValue // 0.0571
 * @source Mann and Whitney 1947, Ann. Math. Stat. 18:50-60 (from memory); with ties, all divisions of the ranks that came
 */
export function mannWhitney(x: readonly number[], y: readonly number[]): RankTest {
  const where = 'mannWhitney';
  checkSample(where, 'x', x, 1);
  checkSample(where, 'y', y, 1);
  const all = [...x, ...y];
  checkVariation(where, all);
  const ranks = doubledRanks(all);
  const sum = total(ranks.slice(0, x.length));
  const [m, n, N] = [x.length, y.length, all.length];
  const statistic = sum / 2 - (m * (m + 1)) / 2;
  const expected = m * (N + 1);
  if (N <= mostCounted)
    return {
      kind: 'mann-whitney',
      statistic,
      pValue: farther(waysOfSums(ranks, m), sum, expected),
      distribution: 'exact',
    };
  const lost = total(tieSizes(all).map((size) => size ** 3 - size)) / (N * (N - 1));
  const variance = ((m * n) / 12) * (N + 1 - lost);
  return approximated('mann-whitney', statistic, (m * n) / 2, variance);
}

/**
 * Wilcoxon's signed-rank test of differences inside pairs. Differences of zero say nothing and are left out, as Wilcoxon did. Exact for
 * 60 differences or fewer, with ties as they came; else by the normal curve, with the variance that the ties leave and a
 * continuity correction of one half.
 *
 * @throws StatisticsError `too-few` without a difference, `not-finite`, `no-variation` where all are zero
 * @example signedRank([-1.9, 0.2, -2.0, -0.8]).pValue // 0.25
 * @source Wilcoxon 1945, Biometrics Bulletin 1:80-83 (from memory); with ties, all signs of the ranks that came
 */
export function signedRank(differences: readonly number[]): RankTest {
  const where = 'signedRank';
  checkSample(where, 'differences', differences, 1);
  const kept = differences.filter((difference) => difference !== 0);
  if (kept.length === 0)
    throw new StatisticsError(where, 'no-variation', 'needs a difference that is not zero, got none');
  const sizes = kept.map(Math.abs);
  const ranks = doubledRanks(sizes);
  const sum = total(ranks.filter((_, at) => (kept[at] ?? 0) > 0));
  const n = kept.length;
  if (n <= mostCounted) {
    const pValue = farther(waysOfSigns(ranks), sum, total(ranks) / 2);
    return { kind: 'signed-rank', statistic: sum / 2, pValue, distribution: 'exact' };
  }
  const lost = total(tieSizes(sizes).map((size) => size ** 3 - size)) / 48;
  return approximated('signed-rank', sum / 2, (n * (n + 1)) / 4, (n * (n + 1) * (2 * n + 1)) / 24 - lost);
}

function checkVariation(where: string, values: readonly number[]): void {
  if (values.every((value) => value === values[0]))
    throw new StatisticsError(where, 'no-variation', 'needs values that are not all equal');
}

function total(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0);
}

/** By doubled rank sum, in how many of all ways of taking `size` of the ranks it comes. */
function waysOfSums(ranks: readonly number[], size: number): Float64Array {
  const width = total(ranks) + 1;
  const bySize = Array.from({ length: size + 1 }, () => new Float64Array(width));
  (bySize[0] as Float64Array)[0] = 1;
  for (const [taken, rank] of ranks.entries())
    for (let count = Math.min(size, taken + 1); count >= 1; count--) {
      const [fewer, own] = [bySize[count - 1] as Float64Array, bySize[count] as Float64Array];
      for (let sum = width - 1; sum >= rank; sum--) own[sum] = (own[sum] as number) + (fewer[sum - rank] as number);
    }
  return bySize[size] as Float64Array;
}

/** By doubled rank sum, in how many of all ways of giving the ranks signs it comes. */
function waysOfSigns(ranks: readonly number[]): Float64Array {
  const ways = new Float64Array(total(ranks) + 1);
  ways[0] = 1;
  for (const rank of ranks)
    for (let sum = ways.length - 1; sum >= rank; sum--)
      ways[sum] = (ways[sum] as number) + (ways[sum - rank] as number);
  return ways;
}

/** Share of the ways that lie as far from the expectation as the sum that came, or farther. */
function farther(ways: Float64Array, sum: number, expected: number): number {
  const distance = Math.abs(sum - expected);
  let [far, all] = [0, 0];
  for (const [at, count] of ways.entries()) {
    all += count;
    if (Math.abs(at - expected) >= distance - 1e-9) far += count;
  }
  return far / all;
}

function approximated(kind: RankTest['kind'], statistic: number, expected: number, variance: number): RankTest {
  const distance = Math.max(0, Math.abs(statistic - expected) - 0.5);
  const pValue = Math.min(1, 2 * normal().upperTail(distance / Math.sqrt(variance)));
  return { kind, statistic, pValue, distribution: 'normal-approximation' };
}
