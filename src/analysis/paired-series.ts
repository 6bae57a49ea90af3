import { orInstead } from '../plain/unless-refused.js';
import { averagedContrast, averagedIntervals, type Interval, isStatisticsError } from '../statistics/index.js';
import type { EstimateWithInterval, Primary, PrimaryOptions } from './primary-difference.js';
import type { Reason } from './reason.js';
import { countOfSeries, reasonsOfSeries, regressionOf, tooShortSeries } from './series-model.js';
import type { SeriesOfWalls } from './series-of-walls.js';

/**
 * The primary difference of a trial with two walls, or with one on one side and several on the other: treated less untreated
 * wall, or mean of walls, at each common visit, the after window's level less the before window's, its interval averaged over how much neighbouring visits may resemble each other.
 *
 * @example pairedSeries(series, { level: 0.95, unit: '% by mass' }).estimate.estimate // -1.233
 */
export function pairedSeries(series: SeriesOfWalls, { level, unit }: PrimaryOptions): Primary {
  const walls = countOfSeries(series);
  const { visits, visitsApart, matchedPlaces } = series;
  const short = tooShortSeries(series);
  const difference = series.treated.change - series.untreated.change;
  const failed = (reason: Reason): Primary => ({ kind: 'not-estimated', reason, difference, walls });
  if (short !== undefined) return failed(short);
  return orInstead(
    isStatisticsError,
    () => {
      const { estimate, interval, pValue } = averagedContrast(regressionOf(series), { step: 1 }, { level });
      const found: EstimateWithInterval = {
        id: 'wall-change',
        unit,
        estimate,
        interval,
        pValue,
        method: { kind: 'paired-series', visits: visits.length, visitsApart, matchedPlaces },
        walls,
      };
      return { kind: 'estimated', method: 'paired-series', estimate: found };
    },
    (error) => failed(reasonsOfSeries[error.fault] ?? { code: 'series-not-judged' }),
  );
}

/**
 * The intervals of `pairedSeries` at several levels, for the work of one.
 *
 * @throws StatisticsError where `pairedSeries` gives a reason instead of an estimate
 * @example pairedSeriesIntervals(series, [0.5, 0.95])[1].upper // -0.266
 */
export function pairedSeriesIntervals(series: SeriesOfWalls, levels: readonly number[]): readonly Interval[] {
  return averagedIntervals(regressionOf(series), { step: 1 }, levels);
}
