import { orInstead } from '../../plain/unless-refused.js';
import {
  correctedCriterion,
  type Interval,
  isStatisticsError,
  type NonlinearFit,
  nonlinearLeastSquares,
  type ParameterValues,
  profileInterval,
} from '../../statistics/index.js';
import { checkCurve, type DryingCurve } from '../drying-curve.js';
import { DryingError } from '../drying-error.js';
import { type DryingModelKind, dryingModels } from './drying-models.js';

/** What is known of the moisture that a wall dries down to. */
export type Equilibrium =
  | { readonly kind: 'estimated' }
  | { readonly kind: 'given'; readonly value: number; readonly standardUncertainty: number };

/** One fitted shape. */
export interface DryingFit {
  readonly kind: DryingModelKind;
  readonly estimates: Readonly<Record<string, number>>;
  /**
   * Of each parameter that the fit leaves free; a given equilibrium's uncertainty is in them. Between fits this is the
   * uncertainty of one wall's readings, not of walls.
   */
  readonly standardErrors: Readonly<Record<string, number>>;
  readonly moistureAt: (time_d: number) => number;
  readonly residualStandardDeviation: number;
  /** AICc. */
  readonly criterion: number;
  readonly fit: NonlinearFit<string, number>;
}

/** At the edge of what its parameter can be, or with readings that limit it to one side at most. */
export type NoInterval = 'at-the-edge' | 'not-limited';

const where = 'fitDryingModel';
/** Time zero and the number of readings that the largest model needs for its criterion. */
const fewestReadings = 4;

/**
 * Fits one shape of drying to a curve by least squares, from several starts and inside bounds.
 *
 * @param curve its times count from the start of the drying
 * @throws DryingError `too-few` below four readings or for more parameters than the criterion allows, `not-drying` where no
 *   fit of this shape exists; those of the curve
 * @example
 * const curve = { times_d: [0, 30, 60, 90, 120, 150, 180], moisture: [10, 7.3, 5.6, 4.5, 3.9, 3.4, 3.2] };
 * fitDryingModel('exponential', curve).estimates.rate // 0.01556 per day
 */
export function fitDryingModel(
  kind: DryingModelKind,
  curve: DryingCurve,
  equilibrium: Equilibrium = { kind: 'estimated' },
): DryingFit {
  checkCurve(where, curve, fewestReadings);
  const fitted = fittedWith(kind, curve, equilibrium.kind === 'given' ? equilibrium.value : undefined);
  if (equilibrium.kind === 'estimated' || !dryingModels[kind].parameters.includes('dry')) return fitted;
  const { value, standardUncertainty } = equilibrium;
  const above = fittedWith(kind, curve, value + standardUncertainty).estimates;
  const below = fittedWith(kind, curve, value - standardUncertainty).estimates;
  const standardErrors = Object.fromEntries(
    Object.entries(fitted.standardErrors).map(([name, error]) => {
      const carried = ((above[name] ?? 0) - (below[name] ?? 0)) / 2;
      return [name, Math.hypot(error, carried)];
    }),
  );
  return { ...fitted, standardErrors };
}

/**
 * Interval of one parameter of a fit from the profile of its sum of squares, or why the readings give it none.
 *
 * @example
 * const curve = { times_d: [0, 30, 60, 90, 120, 150, 180], moisture: [10, 7.3, 5.6, 4.5, 3.9, 3.4, 3.2] };
 * dryingInterval(fitDryingModel('exponential', curve), 'rate', 0.95) // { level: 0.95, lower: 0.0148, upper: 0.01634 }
 */
export function dryingInterval({ fit }: DryingFit, parameter: string, level: number): Interval | NoInterval {
  return orInstead(
    isStatisticsError,
    () => profileInterval(fit, parameter, { level }),
    (error) => (error.fault === 'out-of-range' ? 'at-the-edge' : 'not-limited'),
  );
}

function fittedWith(kind: DryingModelKind, curve: DryingCurve, given: number | undefined): DryingFit {
  const { parameters, moistureAt, gradient, starts, bounds } = dryingModels[kind];
  const isGiven = given !== undefined && parameters.includes('dry');
  const free = isGiven ? parameters.filter((name) => name !== 'dry') : parameters;
  const only = <Value>(all: Readonly<Record<string, Value>>) =>
    Object.fromEntries(Object.entries(all).filter(([name]) => free.includes(name)));
  const known = isGiven ? { dry: given } : {};
  // Asked for at each reading in each step of a fit: no record is made anew where nothing is given.
  const whole = (values: ParameterValues<string>) => (isGiven ? { ...values, ...known } : values);
  try {
    const fit = nonlinearLeastSquares<string, number>({
      model: (values, time_d) => moistureAt(whole(values), time_d),
      ...(gradient && { gradient: (values, time_d) => gradient(whole(values), time_d) }),
      x: curve.times_d,
      response: curve.moisture,
      start: starts(curve).map(only),
      bounds: only(bounds(curve)),
    });
    const estimates = { ...fit.estimates, ...known };
    const { residualSumOfSquares, residualStandardDeviation } = fit;
    const observations = curve.moisture.length;
    return {
      kind,
      estimates,
      standardErrors: Object.fromEntries(fit.parameters.map(({ name, standardError }) => [name, standardError])),
      moistureAt: (time_d) => moistureAt(estimates, time_d),
      residualStandardDeviation,
      criterion: correctedCriterion({ observations, parameters: free.length, residualSumOfSquares }),
      fit,
    };
  } catch (error) {
    if (!isStatisticsError(error)) throw error;
    const fault = error.fault === 'too-many-parameters' ? 'too-few' : 'not-drying';
    const what = fault === 'too-few' ? 'more readings' : 'a curve of that shape';
    throw new DryingError(where, fault, `needs ${what} to fit its shape, ${kind}: ${error.message}`);
  }
}
