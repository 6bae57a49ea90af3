import type { MixedModelFit } from './mixed-model-fit.js';
import { residualDeviation } from './residual-deviation.js';

/** A component of the covariance whose interval is wanted, and how to hold it at a value while the others move. */
export interface ProfileComponent {
  readonly kind: 'standard-deviation' | 'correlation';
  /** Name of the random term, or `residual`. */
  readonly term: string;
  /** The columns of the term, or the group of residuals, that the component belongs to. */
  readonly of: readonly string[];
  readonly estimate: number;
  /** The component's value from the unbounded unknown that the search moves: exponential or hyperbolic tangent. */
  readonly value: (unknown: number) => number;
  readonly place: (free: Float64Array, value: number) => Placed;
  /** Where to start the free parameters: at the fit. */
  readonly start: Float64Array;
}

/** All parameters, with the component at its value. */
interface Placed {
  /** Last comes the logarithm of the scaled residual standard deviation. */
  readonly parameters: Float64Array;
  /** How far the free parameters have moved in a direction that makes no difference; to be kept at zero. */
  readonly drift: number;
}

/** Standard deviations and correlations of the random terms, then those of the residuals. */
export function profileComponents(fit: MixedModelFit): ProfileComponent[] {
  const { problem, point, scale } = fit.workings;
  const all = Float64Array.from([...point, Math.log(residualDeviation(fit.residual) / scale)]);
  const terms = fit.random.flatMap(({ name, columns, standardDeviations, correlations }) => {
    const term = problem.terms.findIndex(({ grouping }) => grouping === groupingOf(fit, name));
    const deviations = standardDeviations.map((estimate, row): ProfileComponent => {
      const start = withDirection(fit, term, row, all);
      const place = (free: Float64Array, value: number) => withDeviation(fit, { term, row, start }, { free, value });
      return { kind: 'standard-deviation', term: name, of: [columns[row]!], estimate, value: Math.exp, place, start };
    });
    if (columns.length !== 2 || problem.terms[term]!.diagonal) return deviations;
    const place = (free: Float64Array, value: number) => withCorrelation(fit, { term, start: all }, { free, value });
    const estimate = correlations[0]![1]!;
    return [
      ...deviations,
      { kind: 'correlation' as const, term: name, of: columns, estimate, value: Math.tanh, place, start: all },
    ];
  });
  return [...terms, ...residualComponents(fit, all)];
}

function groupingOf(fit: MixedModelFit, name: string) {
  return fit.workings.groupings[fit.random.findIndex((term) => term.name === name)];
}

function residualComponents(fit: MixedModelFit, start: Float64Array): ProfileComponent[] {
  const { problem, scale } = fit.workings;
  const last = start.length - 1;
  const setLast = (free: Float64Array, value: number) => replaced(start, free, last, Math.log(value / scale));
  const shared = { kind: 'standard-deviation' as const, term: 'residual', value: Math.exp, start };
  const one = (estimate: number) => [{ ...shared, of: [], estimate, place: setLast }];
  const byGroup = (groups: readonly { group: string; standardDeviation: number }[]) =>
    groups.map(({ group, standardDeviation: estimate }, at) => {
      // The ratios of the further groups are the last of the residual's parameters.
      const own = last - groups.length + at;
      const place = (free: Float64Array, value: number) =>
        replaced(start, free, own, Math.log(value / scale) - free[last]!);
      return { ...shared, of: [group], estimate, place: at === 0 ? setLast : place };
    });
  const correlation = (estimate: number): ProfileComponent => {
    const place = (free: Float64Array, value: number) =>
      replaced(start, free, problem.entries.length, Math.atanh(value));
    return { ...shared, kind: 'correlation', value: Math.tanh, of: [], estimate, place };
  };
  const { residual } = fit;
  switch (residual.kind) {
    case 'equal':
      return one(residual.standardDeviation);
    case 'by-group':
      return byGroup(residual.groups);
    case 'autoregressive':
      return [...one(residual.standardDeviation), correlation(residual.correlation)];
    case 'autoregressive-by-group':
      return [...byGroup(residual.groups), correlation(residual.correlation)];
  }
}

/** The parameter that is replaced makes no difference itself, and is kept where it was at the fit. */
function replaced(start: Float64Array, free: Float64Array, at: number, value: number): Placed {
  const parameters = Float64Array.from(free);
  parameters[at] = value;
  return { parameters, drift: free[at]! - start[at]! };
}

interface PlaceInFactor {
  /** Place of the term among those of the problem. */
  readonly term: number;
  /** The parameters at the fit. */
  readonly start: Float64Array;
}

interface HeldValue {
  readonly free: Float64Array;
  /** What the component is held at. */
  readonly value: number;
}

/**
 * Sets the length of a row of the factor of the original columns' covariance; of a longer row the direction stays free.
 */
function withDeviation(
  fit: MixedModelFit,
  { term, row, start }: PlaceInFactor & { readonly row: number },
  { free, value }: HeldValue,
): Placed {
  const { problem, scale } = fit.workings;
  const { size, diagonal } = problem.terms[term]!;
  const own = (from: Float64Array) => from.subarray(row * size + (diagonal ? row : 0), row * size + row + 1);
  const factor = originalFactor(fit, term, free);
  const entries = own(factor);
  const atStart = own(originalFactor(fit, term, start));
  const length = value / (scale * Math.exp(free[free.length - 1]!));
  const single = entries.length === 1;
  const before = single ? entries[0]! : Math.hypot(...entries);
  const drift = single ? before - atStart[0]! : before / Math.hypot(...atStart) - 1;
  entries.set(single ? [length] : entries.map((entry) => (entry * length) / before));
  return { parameters: withOriginalFactor(fit, term, free, factor), drift };
}

/** Where a row of several entries is zero it has no direction; it is given one. */
function withDirection(fit: MixedModelFit, term: number, row: number, start: Float64Array): Float64Array {
  const { size, diagonal } = fit.workings.problem.terms[term]!;
  const factor = originalFactor(fit, term, start);
  const entries = factor.subarray(row * size, row * size + row + 1);
  if (diagonal || row === 0 || Math.hypot(...entries) > 0) return start;
  entries[row] = 0.1;
  return withOriginalFactor(fit, term, start, factor);
}

/** Turns the second row of the factor of the original columns' covariance, keeping its length. */
function withCorrelation(fit: MixedModelFit, { term, start }: PlaceInFactor, { free, value }: HeldValue): Placed {
  const factor = originalFactor(fit, term, free);
  const length = Math.hypot(factor[2]!, factor[3]!);
  const angle = (from: Float64Array) => Math.atan2(from[2]!, from[3]!);
  const atFit = originalFactor(fit, term, start);
  const drift = angle(factor) - angle(atFit);
  // A negative entry would turn the correlation round; its square is smooth where the absolute value has a kink.
  factor[0] = factor[0]! ** 2 / atFit[0]!;
  factor[2] = length * value;
  factor[3] = length * Math.sqrt(Math.max(0, 1 - value * value));
  return { parameters: withOriginalFactor(fit, term, free, factor), drift };
}

/** Relative covariance factor of the effects on the original columns. */
function originalFactor(
  { workings: { problem } }: MixedModelFit,
  term: number,
  parameters: Float64Array,
): Float64Array {
  const { size, unscale } = problem.terms[term]!;
  const factor = new Float64Array(size * size);
  problem.entries.forEach(({ term: own, row, column }, at) => {
    if (own !== term) return;
    for (let k = row; k < size; k++) factor[k * size + column]! += unscale[k * size + row]! * parameters[at]!;
  });
  return factor;
}

function withOriginalFactor(
  { workings: { problem } }: MixedModelFit,
  term: number,
  parameters: Float64Array,
  factor: Float64Array,
): Float64Array {
  const { size, unscale } = problem.terms[term]!;
  const scaled = Float64Array.from(factor);
  for (let row = 0; row < size; row++) {
    for (let column = 0; column < size; column++) {
      let sum = factor[row * size + column]!;
      for (let k = 0; k < row; k++) sum -= unscale[row * size + k]! * scaled[k * size + column]!;
      scaled[row * size + column] = sum / unscale[row * size + row]!;
    }
  }
  const result = Float64Array.from(parameters);
  problem.entries.forEach(({ term: own, row, column }, at) => {
    if (own === term) result[at] = scaled[row * size + column]!;
  });
  return result;
}
