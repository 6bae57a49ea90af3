import { checkLevel } from '../../checked-input.js';
import type { Interval } from '../../interval.js';
import { StatisticsError } from '../../statistics-error.js';
import { integerBelow } from '../random/integer-below.js';
import { streamsOf } from '../random/random-stream.js';
import { bcaLimits, percentileLimits } from './bootstrap-limits.js';
import { chunkSize } from './replicates.js';
import { expandedTail, type SmallSample, smallSampleWidth } from './small-sample.js';

export interface BootstrapOfOptions {
  /** Any whole number. */
  readonly seed: number;
  /** `bca` unless told. */
  readonly method?: 'percentile' | 'bca';
  /** 9,999 unless told. */
  readonly draws?: number;
  /** Confidence level as a fraction; 0.95 unless told. */
  readonly level?: number;
  /** Whether the limits make up for few units; `corrected` unless told. */
  readonly smallSample?: SmallSample;
}

export interface BootstrapOfResult {
  readonly kind: 'bootstrap-of';
  readonly method: 'percentile' | 'bca';
  readonly estimate: number;
  readonly interval: Interval;
  readonly monteCarlo: {
    readonly seed: number;
    readonly draws: number;
    readonly limitStandardErrors: { readonly lower: number; readonly upper: number };
  };
  /** Units in each group. */
  readonly n: readonly number[];
}

/**
 * Any statistic, with an interval from drawing whole units again with replacement inside each group. For means and their
 * differences `bootstrap` is faster and can studentise.
 *
 * Few units drawn again vary too little; unless told otherwise, the limits are quantiles farther out than the level says, by
 * what would make an interval for means right (Hesterberg 2015, Am. Stat. 69:371-386, expanded levels). So they stay among
 * values that the statistic can take, a share within 0 and 1; but with very few units there are no such far quantiles.
 *
 * @param groups units that are drawn among themselves: strata, arms, or a single group; a unit is whatever the statistic takes,
 *   for instance a wall with all its readings
 * @param statistic a finite number of the groups, in the same order, each as large as the one given, or without one of its
 *   units (for `bca` and for the correction)
 * @throws StatisticsError `too-few` units, or draws for so few units, `not-finite` when the statistic of a draw is not finite, `no-variation`, `out-of-range`
 * @example bootstrapOf([[1, 4, 2, 8, 5, 7]], ([values = []]) => median(values), { seed: 1 }).estimate // 4.5
 */
export function bootstrapOf<Unit>(
  groups: readonly (readonly Unit[])[],
  statistic: (groups: readonly (readonly Unit[])[]) => number,
  options: BootstrapOfOptions,
): BootstrapOfResult {
  const { seed, method = 'bca', draws = 9_999, level = 0.95, smallSample = 'corrected' } = options;
  checkLevel('bootstrapOf', level);
  checkGroups(groups, draws);
  const finite = (drawn: readonly (readonly Unit[])[]): number => {
    const value = statistic(drawn);
    if (Number.isFinite(value)) return value;
    const what = `needs a statistic that is finite for every draw, got ${value}`;
    throw new StatisticsError('bootstrapOf', 'not-finite', `${what}; give it a value where units coincide`);
  };
  const estimate = finite(groups);
  const tail = (1 - level) / 2;
  const influences = method === 'bca' || smallSample === 'corrected' ? influencesOf(groups, finite, estimate) : [];
  const read = smallSample === 'corrected' ? farTail(expandedTail(smallSampleWidth(influences), tail), draws) : tail;
  const replicates = replicatesOf(groups, finite, seed, draws);
  const limits =
    method === 'percentile' ? percentileLimits(replicates, read) : bcaLimits(replicates, estimate, influences, read);
  return {
    kind: 'bootstrap-of',
    method,
    estimate,
    interval: { level, lower: limits.lower.value, upper: limits.upper.value },
    monteCarlo: {
      seed,
      draws,
      limitStandardErrors: { lower: limits.lower.standardError, upper: limits.upper.standardError },
    },
    n: groups.map((group) => group.length),
  };
}

function checkGroups(groups: readonly (readonly unknown[])[], draws: number): void {
  if (groups.length === 0 || groups.some((group) => group.length < 2)) {
    const got = groups.map((group) => group.length).join(', ') || 'no group';
    throw new StatisticsError('bootstrapOf', 'too-few', `needs at least 2 units in each group, got ${got}; add units`);
  }
  if (!Number.isSafeInteger(draws) || draws < 1) {
    throw new StatisticsError('bootstrapOf', 'out-of-range', `needs a whole number of draws from 1, got ${draws}`);
  }
}

/** Refused before drawing, with what it would take. */
function farTail(tail: number, draws: number): number {
  if (tail * (draws + 1) >= 1) return tail;
  const what = `needs more draws or units: with so few units the limits are the ${tail.toPrecision(2)} quantiles of the draws`;
  const remedy = `at least ${Math.ceil(1 / tail)} draws have them`;
  throw new StatisticsError(
    'bootstrapOf',
    'too-few',
    `${what}, and ${remedy}; draw more, add units or lower the level`,
  );
}

type Statistic<Unit> = (groups: readonly (readonly Unit[])[]) => number;

function replicatesOf<Unit>(
  groups: readonly (readonly Unit[])[],
  statistic: Statistic<Unit>,
  seed: number,
  draws: number,
): Float64Array {
  const streamOf = streamsOf(seed);
  let stream = streamOf(0);
  return Float64Array.from({ length: draws }, (_, draw) => {
    if (draw % chunkSize === 0) stream = streamOf(draw / chunkSize);
    return statistic(groups.map((group) => group.map(() => group[integerBelow(stream, group.length)] as Unit)));
  });
}

/** Jackknife: (n - 1) times the decrease of the statistic when a unit is left out. */
function influencesOf<Unit>(
  groups: readonly (readonly Unit[])[],
  statistic: Statistic<Unit>,
  estimate: number,
): Float64Array[] {
  return groups.map((group, which) => {
    return Float64Array.from(group, (_, left) => {
      const without = groups.map((other, at) => (at === which ? other.filter((_unit, unit) => unit !== left) : other));
      return (group.length - 1) * (estimate - statistic(without));
    });
  });
}
