import type { Inversion } from '../inversion.js';

/**
 * Chances of each value of the Mann-Whitney statistic of two groups without ties or effect: how many of the nx ny pairs are
 * ordered one way. Counted by choosing ranks one after the other.
 */
export function rankSumChances(nx: number, ny: number): Float64Array {
  const [few, many] = [Math.min(nx, ny), Math.max(nx, ny)];
  // ways[k][u]: of the ranks so far, choices of k whose ranks exceed the smallest possible sum by u.
  const ways = Array.from({ length: few + 1 }, () => new Float64Array(few * many + 1));
  (ways[0] as Float64Array)[0] = 1;
  for (let rank = 1; rank <= few + many; rank++) {
    for (let chosen = Math.min(few, rank); chosen >= 1; chosen--) {
      // The chosen-th smallest rank adds its distance from `chosen` to the excess.
      const shift = rank - chosen;
      if (shift <= many) addShifted(ways[chosen] as Float64Array, ways[chosen - 1] as Float64Array, shift);
    }
  }
  return normalised(ways[few] as Float64Array);
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
    const isOver = inversion === 'p-value' ? sum + chance > tail * (1 + 1e-12) : sum + chance / 2 >= tail * (1 - 1e-12);
    if (isOver) break;
    sum += chance;
    cut++;
  }
  return cut;
}

function addShifted(target: Float64Array, source: Float64Array, shift: number): void {
  for (let at = target.length - 1; at >= shift; at--) {
    target[at] = (target[at] as number) + (source[at - shift] as number);
  }
}

function normalised(ways: Float64Array): Float64Array {
  const total = ways.reduce((sum, count) => sum + count, 0);
  return ways.map((count) => count / total);
}
