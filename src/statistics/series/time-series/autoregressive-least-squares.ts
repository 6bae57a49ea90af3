import type { LeastSquaresFit } from '../../models/linear/least-squares.js';
import { StatisticsError } from '../../statistics-error.js';
import { leastBetween } from '../change-point/least-between.js';
import { fitAtCorrelation } from './fit-at-correlation.js';
import { gapsOfSeries, type SeriesRegression } from './series-regression.js';

/** A linear model with first-order autocorrelated errors, at the autocorrelation that suits the series best. */
export interface AutoregressiveFit {
  readonly series: SeriesRegression;
  /** Of errors one typical gap apart. */
  readonly correlation: number;
  /** Gaps between neighbours, in typical (median) gaps. */
  readonly gaps: readonly number[];
  /** Of one value about the model. */
  readonly residualVariance: number;
  readonly fit: LeastSquaresFit;
  /** Restricted, with its constants. */
  readonly logLikelihood: number;
}

/** Angles whose sine is the correlation: finer towards -1 and 1. */
const searched = 32;

/**
 * Generalised least squares with first-order autocorrelation, that of neighbours dying away with the gap between them
 * (correlation to the power of the gap), by restricted maximum likelihood. Its standard errors need
 * `autoregressiveContrast`; in series of two dozen values they still come out too small where neighbours are much alike,
 * for which see `averagedContrast`.
 *
 * @throws StatisticsError `not-converged` where the likelihood grows until neighbours are alike or opposite; what
 *   `leastSquares` throws; `lengths-differ`; `out-of-range` for times that do not rise; `no-variation` for an exact fit
 * @example autoregressiveLeastSquares(series).correlation // -0.02177
 * @source Harville 1977, J. Am. Stat. Assoc. 72:320–338 (restricted likelihood); Jones 1980, Technometrics 22:389–395 (unequal gaps)
 */
export function autoregressiveLeastSquares(series: SeriesRegression): AutoregressiveFit {
  const where = 'autoregressiveLeastSquares';
  const gaps = gapsOfSeries(where, series);
  const at = (angle: number) => fitAtCorrelation(series, gaps, Math.sin(angle));
  const step = Math.PI / searched;
  const angles = Array.from({ length: searched }, (_, index) => -Math.PI / 2 + (index + 0.5) * step);
  const heights = angles.map((angle) => at(angle).logLikelihood);
  const best = heights.indexOf(Math.max(...heights));
  if (best === 0 || best === searched - 1) {
    const detail = `needs a series whose likeliest autocorrelation lies between -1 and 1, it grows towards ${best === 0 ? -1 : 1}; lengthen the series or use a model with a trend`;
    throw new StatisticsError(where, 'not-converged', detail);
  }
  const highest = leastBetween((angle) => -at(angle).logLikelihood, angles[best]! - step, angles[best]! + step);
  const { fit, logLikelihood } = at(highest.point);
  const df = fit.degreesOfFreedom;
  return {
    series,
    correlation: Math.sin(highest.point),
    gaps,
    residualVariance: fit.residualVariance,
    fit,
    logLikelihood: logLikelihood - (df / 2) * (1 + Math.log((2 * Math.PI) / df)),
  };
}
