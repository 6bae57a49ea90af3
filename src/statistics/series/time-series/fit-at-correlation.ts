import { type LeastSquaresFit, leastSquares } from '../../models/linear/least-squares.js';
import { neighbourCorrelation } from './neighbour-correlation.js';
import type { SeriesRegression } from './series-regression.js';

/** Generalised least squares at one autocorrelation, and how well that autocorrelation suits the series. */
export interface FitAtCorrelation {
  /** Of the series with its autocorrelation taken out: coefficients and their covariance are those of the series itself. */
  readonly fit: LeastSquaresFit;
  /** Restricted log-likelihood with the variance at its best, without the constants that no autocorrelation moves. */
  readonly logLikelihood: number;
}

/**
 * Takes the autocorrelation out, each value less what its neighbour foretells and over what remains to be foretold, and
 * fits by least squares.
 *
 * @param correlation between neighbours one typical gap apart, between -1 and 1
 * @param gaps in typical gaps, as `gapsOfSeries` gives them
 */
export function fitAtCorrelation(
  { design, response }: SeriesRegression,
  gaps: readonly number[],
  correlation: number,
): FitAtCorrelation {
  const carried = gaps.map((gap) => neighbourCorrelation(correlation, gap));
  const remaining = carried.map((share) => (1 - share) * (1 + share));
  const takenOut = (values: readonly number[]) =>
    values.map((value, at) =>
      at === 0 ? value : (value - carried[at - 1]! * values[at - 1]!) / Math.sqrt(remaining[at - 1]!),
    );
  const columns = design.columns.map(({ name, values }) => ({ name, values: takenOut(values) }));
  const fit = leastSquares({ columns }, takenOut(response));
  const logDeterminant = remaining.reduce((sum, share) => sum + Math.log(share), 0);
  let logOfProducts = 0;
  for (let at = 0; at < fit.rank; at++) logOfProducts -= 2 * Math.log(Math.abs(fit.inverseFactor[at * fit.rank + at]!));
  const logOfSquares = fit.degreesOfFreedom * Math.log(fit.residualSumOfSquares);
  return { fit, logLikelihood: -(logDeterminant + logOfProducts + logOfSquares) / 2 };
}
