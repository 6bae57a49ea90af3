import { covariate, designMatrix, intercept, leastSquares, modelWeights, studentT } from '../../statistics/index.js';
import { checkCurve, type DryingCurve } from '../drying-curve.js';
import { DryingError, type DryingFault, isDryingError } from '../drying-error.js';
import type { DryingModelKind } from './drying-models.js';
import { type DryingFit, type Equilibrium, fitDryingModel } from './fit-drying-model.js';

/** A curve with the shapes that could be fitted to it, the best first. */
export interface DryingOfCurve {
  readonly fits: readonly WeightedFit[];
  /** Shapes within 2 of the best criterion, which are averaged; one where it leads. */
  readonly averaged: readonly DryingModelKind[];
  /** Shapes that could not be fitted: with `too-few` readings for their parameters, or readings that do not take them. */
  readonly notFitted: readonly NotFitted[];
  /** Of the leading shape, or the average of the leading shapes by their weights. */
  readonly moistureAt: (time_d: number) => number;
  readonly last_d: number;
}

interface NotFitted {
  readonly kind: DryingModelKind;
  readonly fault: Extract<DryingFault, 'too-few' | 'not-drying'>;
}

export interface WeightedFit extends DryingFit {
  /** Criterion less the best. */
  readonly difference: number;
  readonly weight: number;
}

const where = 'dryingOfCurve';
const kinds: readonly DryingModelKind[] = ['exponential', 'two-stage', 'square-root', 'constant-rate'];
/** Closer than this in AICc, two shapes cannot be distinguished (Burnham and Anderson 2002, section 2.6). */
const indistinguishable = 2;

/**
 * Fits every shape of drying to a curve and lets AICc choose; shapes closer than 2 to the best are averaged by their weights.
 *
 * @param curve from the start of the drying on
 * @throws DryingError `not-drying` where the moisture rises, or falls no more than its scatter explains (Student's t of the
 *   straight line, two-sided at 0.05); `too-few` below four readings; those of the curve
 * @example
 * const curve = { times_d: [0, 30, 60, 90, 120, 150, 180], moisture: [10, 7.3, 5.6, 4.5, 3.9, 3.4, 3.2] };
 * dryingOfCurve(curve).fits[0].kind // 'exponential'
 */
export function dryingOfCurve(curve: DryingCurve, equilibrium: Equilibrium = { kind: 'estimated' }): DryingOfCurve {
  checkCurve(where, curve, 4);
  checkFalls(curve);
  const fits: DryingFit[] = [];
  const notFitted: NotFitted[] = [];
  for (const kind of kinds) {
    try {
      fits.push(fitDryingModel(kind, curve, equilibrium));
    } catch (error) {
      if (!isDryingError(error)) throw error;
      notFitted.push({ kind, fault: error.fault === 'too-few' ? 'too-few' : 'not-drying' });
    }
  }
  if (fits.length === 0) throw new DryingError(where, 'not-drying', 'needs a curve that one of the shapes fits');
  const weights = modelWeights(fits.map(({ criterion }) => criterion));
  const weighted = fits
    .map((fit, k) => ({ ...fit, ...(weights[k] as { difference: number; weight: number }) }))
    .sort((one, other) => one.difference - other.difference);
  const leading = weighted.filter(({ difference }) => difference < indistinguishable);
  const whole = leading.reduce((sum, { weight }) => sum + weight, 0);
  return {
    fits: weighted,
    averaged: leading.map(({ kind }) => kind),
    notFitted,
    moistureAt: (time_d) => leading.reduce((sum, fit) => sum + (fit.weight / whole) * fit.moistureAt(time_d), 0),
    last_d: curve.times_d.at(-1) as number,
  };
}

/**
 * The day on which the curve comes down to a moisture, or undefined where it has not by its last reading: curves are not
 * drawn on beyond what was read.
 *
 * @example
 * const curve = { times_d: [0, 30, 60, 90, 120, 150, 180], moisture: [10, 7.3, 5.6, 4.5, 3.9, 3.4, 3.2] };
 * dayOfMoisture(dryingOfCurve(curve), 5) // 74.98
 */
export function dayOfMoisture({ moistureAt, last_d }: DryingOfCurve, moisture: number): number | undefined {
  if (moistureAt(0) <= moisture) return 0;
  if (moistureAt(last_d) > moisture) return undefined;
  let [low, high] = [0, last_d];
  while (high - low > 1e-9 * last_d) {
    const middle = (low + high) / 2;
    if (moistureAt(middle) > moisture) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

function checkFalls({ times_d, moisture }: DryingCurve): void {
  if (new Set(moisture).size === 1)
    throw new DryingError(where, 'not-drying', `needs moisture that falls; it stays at ${moisture[0]} throughout`);
  const fit = leastSquares(designMatrix([intercept(), covariate('time', times_d)]), moisture);
  const { estimate, standardError } = fit.coefficients[1] as { estimate: number; standardError: number };
  if (estimate >= 0) throw new DryingError(where, 'not-drying', 'needs moisture that falls; it rises over the period');
  if (-estimate > studentT(fit.degreesOfFreedom).upperQuantile(0.025) * standardError) return;
  throw new DryingError(where, 'not-drying', 'needs moisture that falls by more than its readings scatter');
}
