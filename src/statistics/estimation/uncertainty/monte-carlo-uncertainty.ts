import { checkLevel } from '../../checked-input.js';
import type { Interval } from '../../interval.js';
import { StatisticsError } from '../../statistics-error.js';
import { mean } from '../summaries/mean.js';
import { standardDeviation } from '../summaries/standard-deviation.js';
import { drawsOfInputs } from './draws-of-inputs.js';
import type { InputCorrelation, InputQuantity } from './input-quantity.js';
import { type MeasurementModel, valuesByName } from './measurement-model.js';

const where = 'monteCarloUncertainty';

export interface MonteCarloOptions<Name extends string> {
  /** Any whole number; the same seed gives the same answer. */
  readonly seed: number;
  /** How often the inputs are drawn; 100 000 unless given. */
  readonly trials?: number;
  /** Level of the intervals; 0.95 unless given. */
  readonly level?: number;
  /** Pairs of normal inputs whose errors go together. */
  readonly correlations?: readonly InputCorrelation<Name>[];
}

/** What the distribution of a result looks like when its inputs are drawn from theirs. */
export interface MonteCarloResult {
  readonly mean: number;
  readonly standardUncertainty: number;
  /** As much probability left out below as above. */
  readonly interval: Interval;
  /** The narrowest interval that holds the level. */
  readonly shortestInterval: Interval;
  readonly trials: number;
  readonly seed: number;
}

/**
 * Propagates whole distributions rather than standard uncertainties: draws every input, computes the result, and
 * describes what comes out. The check of an uncertainty budget, which is exact only for straight models.
 *
 * @throws StatisticsError `not-finite` where a draw has no result; `out-of-range`; `too-few` below 1000 trials or
 *   where the level leaves no trial outside the interval
 * @example
 * const inputs = [
 *   { name: 'mass', value: 10, standardUncertainty: 0.1, distribution: 'normal' },
 *   { name: 'volume', value: 5, standardUncertainty: 0.02, distribution: 'rectangular' },
 * ];
 * monteCarloUncertainty(({ mass, volume }) => mass / volume, inputs, { seed: 1, trials: 20_000 }).standardUncertainty // 0.02155
 * @source JCGM 101:2008, clauses 5.9 and 7 (from memory)
 */
export function monteCarloUncertainty<Name extends string>(
  model: MeasurementModel<Name>,
  inputs: readonly InputQuantity<Name>[],
  options: MonteCarloOptions<Name>,
): MonteCarloResult {
  const { seed, trials = 100_000, level = 0.95, correlations = [] } = options;
  checkLevel(where, level);
  if (!(Number.isSafeInteger(trials) && trials >= 1000 && trials * (1 - level) >= 2))
    throw new StatisticsError(
      where,
      'too-few',
      `needs at least 1000 trials, and enough to leave two outside the interval, got ${trials} at level ${level}`,
    );
  const results = resultsOf(model, inputs, drawsOfInputs(seed, inputs, trials, correlations), trials).sort();
  const values = Array.from(results);
  return {
    mean: mean(values),
    standardUncertainty: standardDeviation(values),
    ...intervalsOf(results, level),
    trials,
    seed,
  };
}

function resultsOf<Name extends string>(
  model: MeasurementModel<Name>,
  inputs: readonly InputQuantity<Name>[],
  draws: readonly Float64Array[],
  trials: number,
): Float64Array {
  const drawn = valuesByName(where, inputs);
  const results = new Float64Array(trials);
  for (let trial = 0; trial < trials; trial++) {
    for (const [index, input] of inputs.entries()) drawn[input.name] = (draws[index] as Float64Array)[trial] as number;
    const result = model(drawn);
    if (!Number.isFinite(result))
      throw new StatisticsError(
        where,
        'not-finite',
        `needs a model that gives a number for every draw, got ${result} in trial ${trial}; narrow the inputs' distributions to what is possible`,
      );
    results[trial] = result;
  }
  return results;
}

function intervalsOf(sorted: Float64Array, level: number): Pick<MonteCarloResult, 'interval' | 'shortestInterval'> {
  const held = Math.ceil(level * sorted.length);
  const between = (first: number): Interval => ({
    level,
    lower: sorted[first] as number,
    upper: sorted[first + held] as number,
  });
  const starts = sorted.length - held;
  const width = (first: number) => (sorted[first + held] as number) - (sorted[first] as number);
  let shortest = 0;
  for (let first = 1; first < starts; first++) if (width(first) < width(shortest)) shortest = first;
  return { interval: between(Math.floor((starts - 1) / 2)), shortestInterval: between(shortest) };
}
