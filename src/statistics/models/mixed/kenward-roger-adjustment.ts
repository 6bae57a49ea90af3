import { times, traceOfProduct } from '../../numerics/matrix/square-matrix.js';
import { symmetricEigen } from '../../numerics/matrix/symmetric-eigen.js';
import { StatisticsError } from '../../statistics-error.js';
import { crossForms } from './contrast-in-fit.js';
import { type KenwardRogerParts, kenwardRogerParts } from './kenward-roger-parts.js';
import type { MixedModelFit } from './mixed-model-fit.js';

/** What Kenward and Roger's tests need besides the contrasts. */
export interface Adjustment {
  readonly parts: KenwardRogerParts;
  /** Covariance of the covariance parameters from their expected information. */
  readonly parameters: Float64Array;
  /** Adjusted covariance of the coefficients, on the scale of the data. */
  readonly covariance: Float64Array;
}

/** Kenward and Roger 1997, sections 2 and 3. Throws unless the fit is by restricted likelihood with equal residual variances. */
export function kenwardRogerAdjustment(where: string, fit: MixedModelFit): Adjustment {
  if (fit.model.method !== 'reml') {
    throw new StatisticsError(
      where,
      'out-of-range',
      'needs a fit by restricted maximum likelihood; fit again with method "reml"',
    );
  }
  if (fit.residual.kind !== 'equal') {
    const detail = `needs equal residual variances, got the structure "${fit.residual.kind}"; use satterthwaite`;
    throw new StatisticsError(where, 'out-of-range', detail);
  }
  const { problem, point, turn } = fit.workings;
  const parts = kenwardRogerParts(problem, point);
  const { size, unadjusted, first, second } = parts;
  const parameters = twiceInverse(expectedInformation(parts), first.length);
  const inner = new Float64Array(size * size);
  first.forEach((own, r) => {
    first.forEach((other, s) => {
      const weight = parameters[r * first.length + s]!;
      const product = times(times(own, unadjusted, size), other, size);
      inner.forEach((_, at) => {
        inner[at]! += weight * (second[r]![s]![at]! - product[at]!);
      });
    });
  });
  const change = times(times(unadjusted, inner, size), unadjusted, size);
  const variance = fit.residual.standardDeviation ** 2;
  const adjusted = unadjusted.map((value, at) => variance * (value + 2 * change[at]!));
  return { parts, parameters, covariance: crossForms(adjusted, rowsOf(turn, size)) };
}

/** Expected information of the covariance parameters under restricted likelihood, times 2. */
function expectedInformation({ size, unadjusted, first, second, traces }: KenwardRogerParts): Float64Array {
  const count = first.length;
  const spread = first.map((part) => times(unadjusted, part, size));
  return Float64Array.from({ length: count * count }, (_, at) => {
    const [r, s] = [Math.floor(at / count), at % count];
    return (
      traces[r]![s]! -
      2 * traceOfProduct(unadjusted, second[r]![s]!, size) +
      traceOfProduct(spread[r]!, spread[s]!, size)
    );
  });
}

function rowsOf(matrix: Float64Array, size: number): Float64Array[] {
  return Array.from({ length: size }, (_, row) => matrix.slice(row * size, (row + 1) * size));
}

/** Twice the inverse; directions about which the data say nothing are left out. */
function twiceInverse(matrix: Float64Array, size: number): Float64Array {
  const lengths = Float64Array.from({ length: size }, (_, k) => Math.sqrt(Math.abs(matrix[k * (size + 1)]!)) || 1);
  const alike = matrix.map((value, at) => value / (lengths[Math.floor(at / size)]! * lengths[at % size]!));
  const { values, vectors } = symmetricEigen(alike, size);
  return matrix.map((_, at) => {
    const [row, column] = [Math.floor(at / size), at % size];
    let sum = 0;
    values.forEach((value, k) => {
      // Directions of which the data say nothing: an eigenvalue of rounding, of a matrix scaled to a diagonal of 1.
      if (value > 1e-12) sum += (2 * vectors[row * size + k]! * vectors[column * size + k]!) / value;
    });
    return sum / (lengths[row]! * lengths[column]!);
  });
}
