import { checkResiduals } from './check-residuals.js';
import type { LeastSquaresFit } from './least-squares.js';
import { orthonormalRows } from './orthonormal-rows.js';

/** How one observation pulls on a fit. What cannot be told, because the observation alone decides a coefficient, is absent. */
export interface ObservationInfluence {
  /** Diagonal entry of the hat matrix: the share of its own fitted value that the observation makes, 0 to 1. */
  readonly leverage: number;
  /** Residual over its standard error, the residual variance from all observations (internally studentised). */
  readonly standardisedResidual?: number;
  /**
   * Residual over its standard error, the residual variance from the other observations (externally studentised): follows
   * Student's t with one degree of freedom less than the fit. Absent also where that leaves no degrees of freedom or no variance.
   */
  readonly studentisedResidual?: number;
  /** Cook's distance: how far all fitted values move without the observation, in coefficients times residual variance. */
  readonly cooksDistance?: number;
  /** For each coefficient, the estimate from all observations less the estimate without this one. */
  readonly coefficientChange?: readonly number[];
}

/** An observation with a leverage this close to 1 is fitted exactly, whatever its value. */
const WHOLE_LEVERAGE_ABOVE = 1 - 1e-10;

/**
 * Leverage, residuals in their own standard errors, Cook's distance and leave-one-out changes, one entry an observation.
 *
 * Cook, Technometrics 19 (1977) 15–18; Belsley, Kuh and Welsch, Regression Diagnostics (1980), sections 2.1 and 2.2.
 *
 * @throws StatisticsError `no-variation` for a fit without residuals
 * @example influence(fit)[2].cooksDistance // 0.2653
 */
export function influence(fit: LeastSquaresFit): ObservationInfluence[] {
  checkResiduals('influence', fit);
  const { rank } = fit;
  const turned = orthonormalRows(fit);
  return fit.residuals.map((residual, row) => {
    const place = turned.subarray(row * rank, (row + 1) * rank);
    const leverage = Math.min(1, squaredLength(place));
    if (leverage > WHOLE_LEVERAGE_ABOVE) return { leverage };
    const left = 1 - leverage;
    const standardisedResidual = residual / Math.sqrt(fit.residualVariance * left);
    return {
      leverage,
      standardisedResidual,
      ...studentised(fit, residual, left),
      cooksDistance: (standardisedResidual ** 2 * leverage) / (left * rank),
      coefficientChange: changes(fit, place, residual / left),
    };
  });
}

function studentised(fit: LeastSquaresFit, residual: number, left: number): { studentisedResidual?: number } {
  const degreesOfFreedom = fit.degreesOfFreedom - 1;
  const others = fit.residualSumOfSquares - residual ** 2 / left;
  // Cancellation leaves rounding only where the observation holds all of the residual variation.
  if (degreesOfFreedom === 0 || others <= 1e-12 * fit.residualSumOfSquares) return {};
  return { studentisedResidual: residual / Math.sqrt((others / degreesOfFreedom) * left) };
}

function changes({ rank, inverseFactor }: LeastSquaresFit, place: Float64Array, prediction: number): number[] {
  return Array.from({ length: rank }, (_, i) => {
    let sum = 0;
    for (let j = i; j < rank; j++) sum += inverseFactor[i * rank + j]! * place[j]!;
    return sum * prediction;
  });
}

function squaredLength(vector: Float64Array): number {
  let sum = 0;
  for (const entry of vector) sum += entry * entry;
  return sum;
}
