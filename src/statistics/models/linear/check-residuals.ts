import { StatisticsError } from '../../statistics-error.js';
import type { LeastSquaresFit } from './least-squares.js';

/** Throws where the residuals are no more than the rounding of the fitted values: nothing is left to judge errors by. */
export function checkResiduals(where: string, fit: LeastSquaresFit): void {
  const rounding = fit.fitted.reduce((sum, value) => sum + (4 * Number.EPSILON * value) ** 2, 0);
  if (fit.residualSumOfSquares > rounding) return;
  const detail =
    'needs residuals that vary: the model fits every observation exactly, so no error can be judged; check for copied values';
  throw new StatisticsError(where, 'no-variation', detail);
}
