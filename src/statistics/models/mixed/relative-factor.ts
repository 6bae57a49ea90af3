import type { ScaledTerm } from './scaled-term.js';

/**
 * Where the entries of a term's relative covariance factor stand among the parameters, row by row of the lower
 * triangle.
 */
export interface FactorEntry {
  readonly term: number;
  readonly row: number;
  readonly column: number;
}

/**
 * The relative covariance factor of a term is the lower triangular matrix whose product with its own transpose, times
 * the residual variance, is the covariance of the effects of one level.
 */
export function factorEntries(terms: readonly ScaledTerm[]): FactorEntry[] {
  return terms.flatMap(({ size, diagonal }, term) =>
    Array.from({ length: size * size }, (_, at) => ({ term, row: Math.floor(at / size), column: at % size })).filter(
      ({ row, column }) => (diagonal ? row === column : row >= column),
    ),
  );
}

/** The factors of all terms, row-major. */
export function relativeFactors(
  terms: readonly ScaledTerm[],
  entries: readonly FactorEntry[],
  parameters: ArrayLike<number>,
): Float64Array[] {
  const factors = terms.map(({ size }) => new Float64Array(size * size));
  entries.forEach(({ term, row, column }, at) => {
    factors[term]![row * terms[term]!.size + column] = parameters[at]!;
  });
  return factors;
}
