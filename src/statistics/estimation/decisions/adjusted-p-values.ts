import { StatisticsError } from '../../statistics-error.js';

/**
 * Holm's adjusted p-values (1979, Scand. J. Stat. 6:65-70): reject those at most alpha, and the chance of any false
 * rejection is at most alpha, whatever the dependence between the tests.
 *
 * @returns in the order given
 * @throws StatisticsError `out-of-range` for a p-value outside 0 to 1
 * @example holm([0.01, 0.04, 0.03]) // [0.03, 0.06, 0.06]
 */
export function holm(pValues: readonly number[]): readonly number[] {
  const { ascending, restore } = ordered('holm', pValues);
  let largest = 0;
  return restore(
    ascending.map((p, rank) => {
      largest = Math.max(largest, Math.min(1, (ascending.length - rank) * p));
      return largest;
    }),
  );
}

function ordered(where: string, pValues: readonly number[]) {
  for (const [at, p] of pValues.entries()) {
    if (!(p >= 0 && p <= 1)) {
      throw new StatisticsError(where, 'out-of-range', `needs p-values from 0 to 1, got ${p} at index ${at}`);
    }
  }
  const order = pValues.map((_, at) => at).sort((one, other) => (pValues[one] as number) - (pValues[other] as number));
  return {
    ascending: order.map((at) => pValues[at] as number),
    restore: (sorted: readonly number[]): readonly number[] => {
      const restored = new Array<number>(sorted.length);
      for (const [rank, at] of order.entries()) restored[at] = sorted[rank] as number;
      return restored;
    },
  };
}
