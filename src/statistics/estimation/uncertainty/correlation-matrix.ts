import { StatisticsError } from '../../statistics-error.js';
import type { InputCorrelation } from './input-quantity.js';

/** The correlation of every pair of inputs, row by row, from the pairs that were named. */
export function correlationMatrix(
  where: string,
  names: readonly string[],
  correlations: readonly InputCorrelation[],
): Float64Array[] {
  const matrix = names.map((_, row) => Float64Array.from(names, (__, column) => (row === column ? 1 : 0)));
  const seen = new Set<string>();
  for (const { between, coefficient } of correlations) {
    const [first, second] = between.map((name) => names.indexOf(name)) as [number, number];
    if (first < 0 || second < 0 || first === second)
      throw new StatisticsError(
        where,
        'out-of-range',
        `needs correlations between two different inputs of the budget, got ${between.join(' and ')}`,
      );
    if (!(Math.abs(coefficient) <= 1))
      throw new StatisticsError(
        where,
        'out-of-range',
        `needs a correlation from -1 to 1 between ${between.join(' and ')}, got ${coefficient}`,
      );
    const pair = `${Math.min(first, second)} ${Math.max(first, second)}`;
    if (seen.has(pair))
      throw new StatisticsError(
        where,
        'out-of-range',
        `needs one correlation for a pair of inputs, got two for ${between.join(' and ')}`,
      );
    seen.add(pair);
    (matrix[first] as Float64Array)[second] = coefficient;
    (matrix[second] as Float64Array)[first] = coefficient;
  }
  return matrix;
}
