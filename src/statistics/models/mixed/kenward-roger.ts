import { inverse, times, trace, traceOfProduct } from '../../numerics/matrix/square-matrix.js';
import { StatisticsError } from '../../statistics-error.js';
import type { ContrastOptions } from '../linear/contrast.js';
import type { ContrastWeights } from '../linear/contrast-weights.js';
import { type TEstimate, tEstimate } from '../linear/t-estimate.js';
import { contrastEstimate, contrastRow, contrastRows, crossForms, quadraticForm } from './contrast-in-fit.js';
import { type JointTest, jointTest } from './contrast-test.js';
import { type Adjustment, kenwardRogerAdjustment } from './kenward-roger-adjustment.js';
import type { MixedModelFit } from './mixed-model-fit.js';

/**
 * A weighted sum of fixed effects with Kenward and Roger's adjusted standard error and degrees of freedom (1997,
 * Biometrics 53, 983–997): the choice for few units, because the adjusted error also counts that the variances are
 * estimated.
 *
 * @param fit by restricted maximum likelihood, with equal residual variances
 * @param weights by column name; columns not named weigh nothing
 * @throws StatisticsError `out-of-range` for a fit by plain likelihood or with another residual structure, or for a
 *   name that is no column; `too-few` when units are too few for the approximation
 * @example kenwardRoger(mixedFit, { 'arm: treated': 1 }, { level: 0.9 }).interval // { level: 0.9, lower: -2.761, upper: -1.172 }
 */
export function kenwardRoger(fit: MixedModelFit, weights: ContrastWeights, options: ContrastOptions = {}): TEstimate {
  const row = contrastRow('kenwardRoger', fit, weights);
  const adjustment = kenwardRogerAdjustment('kenwardRoger', fit);
  const { degreesOfFreedom } = denominator(adjustment, [turned(fit, row)]);
  const variance = quadraticForm(adjustment.covariance, row, row);
  if (!(variance > 0 && degreesOfFreedom > 0 && Number.isFinite(degreesOfFreedom))) {
    const detail = `needs more units: the adjusted variance is ${variance}, with ${degreesOfFreedom} degrees of freedom`;
    throw new StatisticsError('kenwardRoger', 'too-few', detail);
  }
  return tEstimate(
    'kenwardRoger',
    { estimate: contrastEstimate(fit, row), standardError: Math.sqrt(variance), degreesOfFreedom },
    options.level ?? 0.95,
  );
}

/**
 * Several contrasts tested together by Kenward and Roger's scaled F statistic.
 *
 * @throws StatisticsError as `kenwardRoger`; `collinear` when one contrast follows from the others
 * @example kenwardRogerJoint(mixedFit, [{ intercept: 1 }, { 'arm: treated': 1 }]).pValue // 0.0000038
 */
export function kenwardRogerJoint(fit: MixedModelFit, contrasts: readonly ContrastWeights[]): JointTest {
  const rows = contrastRows('kenwardRogerJoint', fit, contrasts);
  const adjustment = kenwardRogerAdjustment('kenwardRogerJoint', fit);
  const { degreesOfFreedom, scale } = denominator(
    adjustment,
    rows.map((row) => turned(fit, row)),
  );
  const estimates = Float64Array.from(rows, (row) => contrastEstimate(fit, row));
  const wald = quadraticForm(inverse(crossForms(adjustment.covariance, rows), rows.length), estimates, estimates);
  return jointTest('kenwardRogerJoint', { wald, contrasts: rows.length, degreesOfFreedom, scale });
}

/** Degrees of freedom and scale of the F statistic: Kenward and Roger 1997, section 3. */
function denominator(
  { parts, parameters }: Adjustment,
  rows: readonly Float64Array[],
): { readonly degreesOfFreedom: number; readonly scale: number } {
  const { size, unadjusted, first } = parts;
  const count = rows.length;
  const weights = contrastProjection(inverse(crossForms(unadjusted, rows), count), rows, size);
  const effects = first.map((part) => times(times(times(weights, unadjusted, size), part, size), unadjusted, size));
  let a1 = 0;
  let a2 = 0;
  effects.forEach((own, r) => {
    effects.forEach((other, s) => {
      const weight = parameters[r * first.length + s]!;
      a1 += weight * trace(own, size) * trace(other, size);
      a2 += weight * traceOfProduct(own, other, size);
    });
  });
  if (count === 1) return { degreesOfFreedom: 2 / a2, scale: 1 };
  const b = (a1 + 6 * a2) / (2 * count);
  const g = ((count + 1) * a1 - (count + 4) * a2) / ((count + 2) * a2);
  const below = 3 * count + 2 * (1 - g);
  const top = 1 + (g / below) * b;
  const middle = 1 - ((count - g) / below) * b;
  const bottom = 1 - ((count + 2 - g) / below) * b;
  const ratio = (((1 - a2 / count) / middle) ** 2 * top) / (count * bottom);
  const degreesOfFreedom = 4 + (count + 2) / (count * ratio - 1);
  return { degreesOfFreedom, scale: (degreesOfFreedom * (1 - a2 / count)) / (degreesOfFreedom - 2) };
}

/** A contrast of coefficients as a contrast of the effects on the turned columns. */
function turned({ workings: { turn } }: MixedModelFit, row: Float64Array): Float64Array {
  return row.map((_, column) => {
    let sum = 0;
    for (let k = 0; k <= column; k++) sum += row[k]! * turn[k * row.length + column]!;
    return sum;
  });
}

/** rows' middle rows. */
function contrastProjection(middle: Float64Array, rows: readonly Float64Array[], size: number): Float64Array {
  return Float64Array.from({ length: size * size }, (_, at) => {
    const one = Float64Array.from(rows, (row) => row[Math.floor(at / size)]!);
    const other = Float64Array.from(rows, (row) => row[at % size]!);
    return quadraticForm(middle, one, other);
  });
}
