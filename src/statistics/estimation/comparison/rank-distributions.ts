import type { Inversion } from '../../numerics/inversion.js';

/**
 * Chances of each value of the Mann-Whitney statistic of two groups without ties or effect: how many of the nx ny pairs are
 * ordered one way. The ways are the coefficients of the Gaussian binomial, the product over i up to the smaller group's size of
 * (1 - q^(larger + i)) / (1 - q^i), multiplied out factor by factor up to the middle; beyond it they mirror.
 */
export function rankSumChances(nx: number, ny: number): Float64Array {
  const [few, many] = [Math.min(nx, ny), Math.max(nx, ny)];
  const last = few * many;
  const ways = new Float64Array(last + 1);
  ways[0] = 1;
  const middle = last >> 1;
  for (let factor = 1; factor <= few; factor++) {
    for (let at = middle; at >= many + factor; at--)
      ways[at] = (ways[at] as number) - (ways[at - many - factor] as number);
    for (let at = factor; at <= middle; at++) ways[at] = (ways[at] as number) + (ways[at - factor] as number);
  }
  for (let at = middle + 1; at <= last; at++) ways[at] = ways[last - at] as number;
  return normalised(ways);
}

/** Chances of each value of Wilcoxon's signed-rank statistic of n differences without ties or effect. */
export function signedRankChances(n: number): Float64Array {
  const ways = new Float64Array((n * (n + 1)) / 2 + 1);
  ways[0] = 1;
  for (let rank = 1; rank <= n; rank++) {
    for (let sum = ways.length - 1; sum >= rank; sum--) {
      ways[sum] = (ways[sum] as number) + (ways[sum - rank] as number);
    }
  }
  return normalised(ways);
}

/**
 * The largest number of extreme order statistics that can be left off at one end: their chance is at most `tail`, or, for the
 * mid-p value, below it with half the chance of the last one. The statistic is at most `cut - 1` with that chance.
 */
export function cutOff(chances: Float64Array, tail: number, inversion: Inversion): number {
  let sum = 0;
  let cut = 0;
  for (const chance of chances) {
    // Chances that equal the tail but for rounding count as equal.
    const isOver = inversion === 'p-value' ? sum + chance > tail * (1 + 1e-12) : sum + chance / 2 >= tail * (1 - 1e-12);
    if (isOver) break;
    sum += chance;
    cut++;
  }
  return cut;
}

function normalised(ways: Float64Array): Float64Array {
  const total = ways.reduce((sum, count) => sum + count, 0);
  return ways.map((count) => count / total);
}
