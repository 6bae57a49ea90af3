import type { MomentEquations } from './moment-equations.js';
import type { ScaledTerm } from './scaled-term.js';

/** What the search may begin with: at zero itself the slope says nothing, and far out hardly more. */
const [leastDeviation, mostDeviation] = [0.1, 100];
/** Nor does it where a column's effects follow from those of the columns before it: this is the most that they may correlate with them. */
const mostCorrelation = 0.9;

/**
 * Relative covariance factors by the method of moments, as near as the search may begin to them. In balanced nested data these are the
 * estimates of restricted likelihood where none is negative.
 *
 * @returns one for each entry; undefined where the sums of squares leave the residual no variance
 */
export function momentStart(
  terms: readonly ScaledTerm[],
  { inverse, observed }: MomentEquations,
): readonly number[] | undefined {
  const solved = observed.map((_, row) =>
    observed.reduce((sum, value, at) => sum + inverse[row * observed.length + at]! * value, 0),
  );
  const residual = solved[solved.length - 1]!;
  if (!(residual > 0) || !solved.every(Number.isFinite)) return undefined;
  let first = 0;
  return terms.flatMap(({ size, diagonal }) => {
    const count = diagonal ? size : (size * (size + 1)) / 2;
    const covariances = Array.from(solved.subarray(first, first + count), (value) => value / residual);
    first += count;
    return diagonal ? covariances.map(boundedDeviation) : correlatedFactor(covariances, size);
  });
}

function boundedDeviation(variance: number): number {
  return Math.min(mostDeviation, Math.max(leastDeviation, Math.sqrt(Math.max(0, variance))));
}

/** Factor of a covariance whose lower triangle is given row by row, bounded so that there is one. */
function correlatedFactor(covariances: readonly number[], size: number): number[] {
  const at = (row: number, column: number) => (row * (row + 1)) / 2 + column;
  const correlation = (row: number, column: number) => {
    const product = covariances[at(row, row)]! * covariances[at(column, column)]!;
    return product > 0 ? covariances[at(row, column)]! / Math.sqrt(product) : 0;
  };
  // Of the correlations first: rows of length 1.
  const factor: number[] = [];
  for (let row = 0; row < size; row++) {
    let told = 0;
    for (let column = 0; column < row; column++) {
      let share = correlation(row, column);
      for (let k = 0; k < column; k++) share -= factor[at(row, k)]! * factor[at(column, k)]!;
      factor.push(share / factor[at(column, column)]!);
      told = Math.hypot(told, factor.at(-1)!);
    }
    const bound = Math.min(1, mostCorrelation / told);
    for (let column = 0; column < row; column++) factor[at(row, column)]! *= bound;
    factor.push(Math.sqrt(1 - Math.min(told, mostCorrelation) ** 2));
  }
  for (let row = 0; row < size; row++) {
    const deviation = boundedDeviation(covariances[at(row, row)]!);
    for (let column = 0; column <= row; column++) factor[at(row, column)]! *= deviation;
  }
  return factor;
}
