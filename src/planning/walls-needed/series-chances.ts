import type { VerdictCode } from '../../analysis/index.js';
import { fewestSeriesVisits } from '../../analysis/index.js';
import { effectiveSampleSize, normal } from '../../statistics/index.js';
import { changeVariance, type Sampling, type Spreads } from './change-variance.js';
import { studentLaw } from './interval-law.js';
import { addChances, checkMargin, type VerdictChances, widthsOf, withRest } from './verdict-chances.js';

/** Two walls that are read together, visit by visit. */
export interface PlannedSeries {
  readonly spreads: Spreads;
  readonly sampling: Sampling;
  readonly level: number;
}

/** What two walls could say, of themselves alone. */
export interface SeriesChances {
  /** Of the verdict on these two walls: whatever else set them apart counts as the effect, and the interval knows nothing of it. */
  readonly chances: VerdictChances;
  /** Of the difference of their levels, as the interval knows it. */
  readonly standardError: number;
  /** Standard deviation of the difference that two walls treated alike would show by themselves. */
  readonly betweenWalls: number;
  /** How often two walls treated alike would differ by more than the margin, on the better side; absent without a margin. */
  readonly apartByThemselves?: number;
}

/**
 * How often two walls, one treated, would be called what. The estimate scatters with the walls' own changes; its interval, made of
 * visits, does not hold them: no number of visits makes the verdict one on the treatment, and it never generalises.
 *
 * An approximation: the autocorrelation counts as known, and the degrees of freedom are what the visits are worth, less two.
 *
 * @param effect of the treatment, on the better side
 * @throws PlanningError `out-of-range`
 * @example
 * const spreads = { walls: 1, stations: 0, visits: 0.6, readings: 0.5, measurement: 0, autocorrelation: 0.4, correlation: 0 };
 * const sampling = { stations: 3, visitsBefore: 15, visitsAfter: 15 };
 * seriesChances({ spreads, sampling, level: 0.95 }, 0, 2).apartByThemselves // 0.0786
 */
export function seriesChances(planned: PlannedSeries, effect: number, margin: number | undefined): SeriesChances {
  checkMargin('seriesChances', effect, margin);
  const { spreads, sampling, level } = planned;
  const variance = changeVariance(spreads, sampling);
  const ofVisits = 2 * (variance.visits + variance.readings);
  const ofWalls = 2 * (variance.walls * (1 - variance.correlation) + variance.stations);
  const [standardError, betweenWalls] = [Math.sqrt(ofVisits), Math.sqrt(ofWalls)];
  const sums = new Map<VerdictCode, number>();
  const isFollowed = Math.min(sampling.visitsBefore, sampling.visitsAfter) >= fewestSeriesVisits;
  if (isFollowed && standardError > 0) {
    const truth = { effect: effect / standardError, scatter: Math.sqrt(1 + ofWalls / ofVisits) };
    const ofMargin = margin === undefined ? {} : { margin: margin / standardError };
    const law = studentLaw(degreesOfFreedom(spreads, sampling), level);
    addChances(sums, 1, widthsOf(law, ofMargin.margin), { ...truth, ...ofMargin });
  }
  const apart =
    margin === undefined || betweenWalls === 0 ? {} : { apartByThemselves: normal().upperTail(margin / betweenWalls) };
  return { chances: withRest(sums), standardError, betweenWalls, ...apart };
}

function degreesOfFreedom({ autocorrelation }: Spreads, { visitsBefore, visitsAfter }: Sampling): number {
  const worth = effectiveSampleSize(visitsBefore, autocorrelation) + effectiveSampleSize(visitsAfter, autocorrelation);
  return Math.max(1, worth - 2);
}
