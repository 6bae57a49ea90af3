import { checkFinite } from '../checked-quantity.js';
import { MoistureError } from '../moisture-error.js';

/** How strongly a core's reading at one visit goes with its reading at the next. */
export interface SerialCorrelation {
  /** Lag one, about the means that were taken off. */
  readonly lagOne: number;
  /** What was taken off first: with several cores, what all of them did at a visit is not serial correlation of a core. */
  readonly about: 'cores' | 'cores-and-visits';
  readonly cores: number;
  readonly visits: number;
  /** What independent readings would give on average in so short a series, −1/visits: not zero. */
  readonly expectedIfIndependent: number;
}

const where = 'serialCorrelation';

/**
 * The lag-one serial correlation of reused cores, pooled over cores: Σ eₜeₜ₊₁ / Σ eₜ², where e is what is left of a
 * reading after its core's mean, and with several cores its visit's mean too. Readings of one core are not independent,
 * and an analysis that uses several visits needs this number. It takes the visits as evenly spaced.
 *
 * @param series moisture by core and visit, every core at every visit
 * @throws MoistureError `too-few` for fewer than three visits or no core; `out-of-range` where visits are missing or
 *   nothing varies; `not-finite`
 * @example serialCorrelation([[9, 8.6, 8.9, 8.1, 7.7, 7.9]]).lagOne // 0.4201
 * @source the estimator is the usual one (divisor: the whole sum of squares); its bias: Marriott and Pope 1954 (from memory)
 */
export function serialCorrelation(series: readonly (readonly number[])[]): SerialCorrelation {
  const visits = series[0]?.length ?? 0;
  if (visits < 3) throw new MoistureError(where, 'too-few', `needs at least 3 visits of a core, got ${visits}`);
  for (const core of series) {
    if (core.length !== visits)
      throw new MoistureError(where, 'out-of-range', `needs every core at all ${visits} visits, got ${core.length}`);
    for (const value of core) checkFinite(where, 'moisture', value);
  }
  const left = series.length === 1 ? series.map(lessMean) : lessVisitMeans(series.map(lessMean));
  const squares = sumOver(left, (core, visit) => (core[visit] as number) ** 2);
  if (!(squares > 0))
    throw new MoistureError(where, 'out-of-range', 'needs readings that vary beyond what all cores did together');
  const products = sumOver(left, (core, visit) => (core[visit] as number) * (core[visit + 1] ?? 0));
  return {
    lagOne: products / squares,
    about: series.length === 1 ? 'cores' : 'cores-and-visits',
    cores: series.length,
    visits,
    expectedIfIndependent: -1 / visits,
  };
}

function lessMean(values: readonly number[]): readonly number[] {
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  return values.map((value) => value - mean);
}

function lessVisitMeans(series: readonly (readonly number[])[]): readonly (readonly number[])[] {
  const common = (series[0] as readonly number[]).map(
    (_, visit) => series.reduce((sum, core) => sum + (core[visit] as number), 0) / series.length,
  );
  return series.map((core) => core.map((value, visit) => value - (common[visit] as number)));
}

function sumOver(
  series: readonly (readonly number[])[],
  term: (core: readonly number[], visit: number) => number,
): number {
  return series.reduce((sum, core) => core.reduce((inner, _, visit) => inner + term(core, visit), sum), 0);
}
