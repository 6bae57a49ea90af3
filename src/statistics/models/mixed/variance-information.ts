import { symmetricEigen } from '../../numerics/matrix/symmetric-eigen.js';
import { StatisticsError } from '../../statistics-error.js';
import { deviance, divisor, type Trial } from './deviance.js';
import { coefficientFactor, squareOf } from './fixed-effects.js';
import type { MixedModelFit } from './mixed-model-fit.js';

/** How well the variance parameters are known, and how the coefficients' covariance depends on them. */
export interface VarianceInformation {
  /** Covariance of the parameters: twice the inverse of the deviance's second derivatives, row-major. */
  readonly covariance: Float64Array;
  /** Derivative of the coefficients' covariance by each parameter, on the scale of the data. */
  readonly slopes: readonly Float64Array[];
}

/**
 * Parameters are those of the deviance and, last, the logarithm of the residual variance. Derivatives are fourth-order
 * central differences of exact gradients. Directions about which the data say nothing are left out, as is usual at a
 * boundary.
 */
export function varianceInformation(fit: MixedModelFit): VarianceInformation {
  const { problem, point } = fit.workings;
  const here = deviance(problem, point)!;
  const count = point.length;
  const size = count + 1;
  const hessian = new Float64Array(size * size);
  const slopes: Float64Array[] = [];
  const set = (row: number, column: number, value: number) => {
    hessian[row * size + column]! += value / 2;
    hessian[column * size + row]! += value / 2;
  };
  for (let row = 0; row < count; row++) {
    const change = slopesAlong(fit, row, here);
    change.gradient.forEach((value, column) => {
      set(row, column, value);
    });
    slopes.push(change.covariance);
  }
  // The sum of squares over the variance is what the gradient has at this variance and only half of at twice the
  // variance.
  const doubled = deviance(problem, point, 2 * here.variance)!;
  for (let row = 0; row < count; row++) {
    const slope = -2 * (here.gradient[row]! - doubled.gradient[row]!);
    set(row, count, 2 * slope);
  }
  set(count, count, divisor(problem));
  slopes.push(fit.covariance);
  return {
    covariance: twiceInverse(hessian, [...Array.from(point, (value) => Math.max(1, Math.abs(value))), 1]),
    slopes,
  };
}

interface Slopes {
  readonly gradient: Float64Array;
  readonly covariance: Float64Array;
}

function slopesAlong(fit: MixedModelFit, parameter: number, { variance, rounding }: Trial): Slopes {
  const { point } = fit.workings;
  // Wide, because the gradients behind it hold some ten digits, fewer where the deviance has lost digits to rounding; two widths
  // combined take the error of second order off.
  const share = Math.max(2e-3, 0.12 * rounding ** 0.2);
  const width = share * Math.max(0.05, Math.abs(point[parameter]!));
  const difference = (reach: number): Slopes => {
    const beyond = at(fit, parameter, reach, variance);
    const before = at(fit, parameter, -reach, variance);
    return {
      gradient: beyond.gradient.map((value, k) => (value - before.gradient[k]!) / (2 * reach)),
      covariance: beyond.covariance.map((value, k) => (value - before.covariance[k]!) / (2 * reach)),
    };
  };
  const wide = difference(width);
  const narrow = difference(width / 2);
  const extrapolate = (value: number, coarse: number) => (4 * value - coarse) / 3;
  return {
    gradient: narrow.gradient.map((value, k) => extrapolate(value, wide.gradient[k]!)),
    covariance: narrow.covariance.map((value, k) => extrapolate(value, wide.covariance[k]!)),
  };
}

/** Gradient and covariance of the coefficients beside the fit, at the fit's residual variance. */
function at({ workings }: MixedModelFit, parameter: number, reach: number, variance: number): Slopes {
  const { problem, point, turn, scale } = workings;
  const moved = Float64Array.from(point);
  moved[parameter]! += reach;
  const trial = deviance(problem, moved, variance);
  if (trial === undefined) {
    throw new StatisticsError('satterthwaite', 'not-converged', 'needs a likelihood that is defined around the fit');
  }
  const triangle = coefficientFactor(problem.workspace.factor, problem.layout, turn);
  const scaled = variance * scale * scale;
  return {
    gradient: trial.gradient,
    covariance: squareOf(triangle, problem.fixedEffects).map((value) => value * scaled),
  };
}

/** @param sizes of the parameters: in units of these, curvatures compare, also where units differ far more than repeats */
function twiceInverse(hessian: Float64Array, sizes: readonly number[]): Float64Array {
  const size = sizes.length;
  const units = hessian.map((_, at) => sizes[Math.floor(at / size)]! * sizes[at % size]!);
  const { values, vectors } = symmetricEigen(
    hessian.map((value, at) => value * units[at]!),
    size,
  );
  const largest = values.reduce((most, curvature) => Math.max(most, curvature), 0);
  const result = new Float64Array(size * size);
  values.forEach((curvature, k) => {
    // A direction in which the likelihood is flat to rounding says nothing, and is left out.
    if (curvature <= 1e-9 * largest) return;
    for (let row = 0; row < size; row++) {
      for (let column = 0; column < size; column++) {
        result[row * size + column]! += (2 * vectors[row * size + k]! * vectors[column * size + k]!) / curvature;
      }
    }
  });
  return result.map((value, at) => value * units[at]!);
}
