import { StatisticsError } from '../../statistics-error.js';

/**
 * The continued fraction of the incomplete beta function: power term divided by this is the probability below x.
 *
 * Converges fast for x below the mean a / (a + b). `excess` is a*y - b*x, handed in because callers know it exactly.
 * Form of DiDonato and Morris, "Algorithm 708" (1992), equation 9; evaluated by the modified Lentz method.
 */
export function betaFraction(a: number, b: number, x: number, y: number, excess: number): number {
  const slope = 1 + y;
  let value = (a / (a + 1)) * (excess + 1);
  let numeratorRatio = value;
  let denominatorRatio = 0;
  for (let m = 1; m < 20000; m++) {
    const odd = a + 2 * m - 1;
    const shared = (m * (b - m) * x) / odd;
    const partialNumerator = ((shared * (a + m - 1)) / odd) * (a + b + m - 1) * x;
    const partialDenominator = m + shared + ((a + m) / (odd + 2)) * (excess + 1 + m * slope);
    denominatorRatio = 1 / (partialDenominator + partialNumerator * denominatorRatio);
    numeratorRatio = partialDenominator + partialNumerator / numeratorRatio;
    const factor = numeratorRatio * denominatorRatio;
    value *= factor;
    if (Math.abs(factor - 1) < 2e-16) return value;
  }
  throw new StatisticsError('betaFraction', 'not-converged', `needs more than 20000 terms at a = ${a}, b = ${b}`);
}

/**
 * A series of positive terms: power term divided by a, times this, is the probability below x.
 *
 * 1 + x (a+b)/(a+1) + x^2 (a+b)(a+b+1)/((a+1)(a+2)) + ...; good for x well below 1.
 */
export function betaSeries(a: number, b: number, x: number): number {
  let term = 1;
  let sum = 1;
  for (let n = 0; term > sum * 1e-17; n++) {
    term *= (x * (a + b + n)) / (a + 1 + n);
    sum += term;
  }
  return sum;
}
