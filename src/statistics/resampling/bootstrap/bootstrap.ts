import { checkedResult, checkLevel } from '../../checked-input.js';
import type { Interval } from '../../interval.js';
import { StatisticsError } from '../../statistics-error.js';
import { type BootstrapLimits, bcaLimits, percentileLimits, studentisedLimits } from './bootstrap-limits.js';
import { type BootstrapSample, type ClusterPool, clusterPools, estimateOf, type Weighing } from './bootstrap-sample.js';
import { jackknifeInfluence } from './jackknife-influence.js';
import type { ReplicateQuantile } from './replicate-quantile.js';
import { allReplicates, type Replicates, standardErrorOf } from './replicates.js';
import { type SmallSample, smallSampleWidth, stretch } from './small-sample.js';

export type BootstrapMethod = 'percentile' | 'bca' | 'studentised';

export interface BootstrapOptions {
  /** Any whole number. */
  readonly seed: number;
  /** `bca` unless told. */
  readonly method?: BootstrapMethod;
  /** 9,999 unless told. */
  readonly draws?: number;
  /** Confidence level as a fraction; 0.95 unless told. */
  readonly level?: number;
  /** Whether each cluster counts once, through its mean, or each value; `clusters` unless told. */
  readonly weighing?: Weighing;
  /**
   * Whether `percentile` and `bca` limits make up for few clusters; `corrected` unless told. `studentised` needs no
   * correction.
   */
  readonly smallSample?: SmallSample;
}

export interface BootstrapResult {
  readonly kind: 'bootstrap';
  readonly method: BootstrapMethod;
  readonly estimate: number;
  /** Standard deviation of the replicates. */
  readonly standardError: number;
  readonly interval: Interval;
  readonly monteCarlo: {
    readonly seed: number;
    readonly draws: number;
    /** How far the finite number of draws moves each limit. */
    readonly limitStandardErrors: { readonly lower: number; readonly upper: number };
  };
  /** Clusters, in one group all of them as treated. */
  readonly n: { readonly treated: number; readonly untreated: number };
}

/**
 * A mean, or a difference of means, with an interval from drawing whole clusters again with replacement, inside each group
 * and stratum.
 *
 * - `percentile`: quantiles of the replicates;
 * - `bca`: moved for bias and skewness (Efron 1987), with the jackknife over clusters;
 * - `studentised`: each replicate in its own standard errors; follows skewness best, but is long with few clusters.
 *
 * Clusters drawn again vary less than clusters, so that quantiles of replicates are too narrow with few: of 95 % intervals
 * four clusters against four keep 85 %. Unless told otherwise, the distances of `percentile` and `bca` limits from the
 * estimate are stretched by the widening and the Student's t that make an interval for means right (Hesterberg 2015, Am.
 * Stat. 69:371-386; see `smallSampleWidth`). Simulated, that keeps 95 %; his expanded levels, which read plain replicates
 * farther out, keep 94.0 and 93.5 % there, because so few clusters have no such far quantiles.
 *
 * `studentised` is refused where drawing one cluster over and over is no rarity in the tails: for 95 % limits four pairs,
 * three against three, or two against two.
 *
 * @throws StatisticsError `too-few` below two clusters in a group, with too few to studentise, or too few draws for the
 *   level, `no-variation`, `not-finite`, `out-of-range`
 * @example
 * bootstrap(
 *   { kind: 'two-groups', treated: [[-3.1], [-1.8], [-2.6], [-2.2]], untreated: [[-1.2], [-2.0], [-0.6], [-1.4]] },
 *   { seed: 1 },
 * ).estimate // -1.125
 */
export function bootstrap(sample: BootstrapSample, options: BootstrapOptions): BootstrapResult {
  const { seed, draws = 9_999, weighing = 'clusters' } = options;
  checkOptions(options);
  const pools = clusterPools('bootstrap', sample, weighing);
  return summarised(sample, pools, allReplicates(pools, seed, draws), options);
}

/** What is refused before anything is drawn. */
function checkOptions({ draws = 9_999, level = 0.95 }: BootstrapOptions): void {
  checkLevel('bootstrap', level);
  if (!Number.isSafeInteger(draws) || draws < 1) {
    throw new StatisticsError('bootstrap', 'out-of-range', `needs a whole number of draws from 1, got ${draws}`);
  }
}

/** The result that replicates lead to, wherever they were drawn. */
function summarised(
  sample: BootstrapSample,
  pools: readonly ClusterPool[],
  replicates: Replicates,
  options: BootstrapOptions,
): BootstrapResult {
  const { seed, method = 'bca', level = 0.95 } = options;
  const estimate = estimateOf(pools);
  const limits = limitsBy(method, estimate, pools, replicates, options);
  return checkedResult('bootstrap', {
    kind: 'bootstrap',
    method,
    estimate,
    standardError: standardDeviationOf(replicates.deviations),
    interval: { level, lower: limits.lower.value, upper: limits.upper.value },
    monteCarlo: {
      seed,
      draws: replicates.deviations.length,
      limitStandardErrors: { lower: limits.lower.standardError, upper: limits.upper.standardError },
    },
    n: sizesOf(sample),
  });
}

function limitsBy(
  method: BootstrapMethod,
  estimate: number,
  pools: readonly ClusterPool[],
  replicates: Replicates,
  { level = 0.95, smallSample = 'corrected' }: BootstrapOptions,
): BootstrapLimits {
  const standardError = standardErrorOf(pools);
  if (standardError === 0) {
    throw new StatisticsError(
      'bootstrap',
      'no-variation',
      'needs clusters that differ, got equal ones; check the data',
    );
  }
  const tail = (1 - level) / 2;
  const { deviations } = replicates;
  const influences = pools.map(jackknifeInfluence);
  const factor = smallSample === 'corrected' ? stretch(smallSampleWidth(influences), tail) : 1;
  switch (method) {
    case 'percentile':
      return moved(percentileLimits(deviations, tail), factor, estimate);
    case 'bca':
      return moved(bcaLimits(deviations, 0, influences, tail), factor, estimate);
    case 'studentised':
      checkScatter(pools, level);
      return studentisedLimits(replicates, { estimate, standardError, tail });
  }
}

/** Of the draws in the tails, so many may lack scatter, and with it a t: a tenth, our convention. */
const mostWithoutScatter = 0.1;

function checkScatter(pools: readonly ClusterPool[], level: number): void {
  const chance = pools.reduce((product, { size }) => product * size.length ** (1 - size.length), 1);
  if (chance > mostWithoutScatter * (1 - level)) {
    const share = `${Number((100 * chance).toPrecision(2))} % of draws take one cluster over and over`;
    const what = `needs more clusters to studentise: ${share}, and have no standard error`;
    throw new StatisticsError('bootstrap', 'too-few', `${what}; take another method or add clusters`);
  }
}

/** From deviations back to the scale of the estimate. */
function moved({ lower, upper }: BootstrapLimits, factor: number, estimate: number): BootstrapLimits {
  const back = ({ value, standardError }: ReplicateQuantile): ReplicateQuantile => {
    return { value: estimate + factor * value, standardError: factor * standardError };
  };
  return { lower: back(lower), upper: back(upper) };
}

function standardDeviationOf(values: Float64Array): number {
  let sum = 0;
  for (const value of values) sum += value;
  const mean = sum / values.length;
  let squares = 0;
  for (const value of values) squares += (value - mean) ** 2;
  return values.length > 1 ? Math.sqrt(squares / (values.length - 1)) : 0;
}

function sizesOf(sample: BootstrapSample): { treated: number; untreated: number } {
  switch (sample.kind) {
    case 'one-group':
      return { treated: sample.clusters.length, untreated: 0 };
    case 'two-groups':
      return { treated: sample.treated.length, untreated: sample.untreated.length };
    case 'stratified':
      return {
        treated: sample.strata.reduce((sum, { treated }) => sum + treated.length, 0),
        untreated: sample.strata.reduce((sum, { untreated }) => sum + untreated.length, 0),
      };
  }
}
