import { averagedContrast, isStatisticsError } from '../statistics/index.js';
import type { EstimateWithInterval, Primary, PrimaryOptions } from './primary-difference.js';
import {
  countOfSeries,
  reasonsOfSeries,
  regressionOf,
  seriesWords,
  takenOfErrors,
  tooShortSeries,
} from './series-model.js';
import type { SeriesOfWalls } from './series-of-walls.js';
import { mostDaysApart } from './visits-in-step.js';

/**
 * The primary difference of a trial with two walls, or with one on one side and several on the other: treated less untreated
 * wall, or mean of walls, at each common visit, the after window's level less the before window's, its interval averaged over how much neighbouring visits may resemble each other.
 *
 * @example pairedSeries(series, { level: 0.95, unit: '% by mass' }).estimate.estimate // -1.233
 */
export function pairedSeries(series: SeriesOfWalls, { level, unit }: PrimaryOptions): Primary {
  const walls = countOfSeries(series);
  const { quantity, taken } = seriesWords(series);
  const isOfTwo = walls.treated + walls.untreated === 2;
  const short = tooShortSeries(series);
  const difference = series.treated.change - series.untreated.change;
  const failed = (reason: string): Primary => ({ kind: 'not-estimated', reason, difference, walls });
  if (short !== undefined) return failed(short);
  try {
    const { estimate, interval, pValue } = averagedContrast(regressionOf(series), { step: 1 }, { level });
    const found: EstimateWithInterval = {
      id: 'wall-change',
      label: isOfTwo ? 'Change of the difference of two walls' : 'Change of the difference of the walls',
      quantity,
      unit,
      estimate,
      interval,
      pValue,
      method: `${placesInWords(series)} at each of ${series.visits.length} common visits${apartInWords(series)}, level after less level before, interval by Student’s t averaged over the first-order autocorrelation`,
      assumptions: [...taken, takenOfErrors],
      walls,
    };
    return { kind: 'estimated', method: 'paired-series', estimate: found };
  } catch (error) {
    if (!isStatisticsError(error)) throw error;
    return failed(reasonsOfSeries[error.fault] ?? 'the series of the two walls cannot be judged');
  }
}

function placesInWords(series: SeriesOfWalls): string {
  const { treated, untreated } = countOfSeries(series);
  const side = (name: string, count: number) => (count === 1 ? `${name} wall` : `mean of the ${count} ${name} walls`);
  const difference =
    treated + untreated === 2
      ? 'treated less untreated wall'
      : `${side('treated', treated)} less ${side('untreated', untreated)}`;
  const { matchedPlaces } = series;
  if (matchedPlaces === 0) return difference;
  return `${difference} at ${matchedPlaces === 1 ? 'the one height and depth' : `${matchedPlaces} heights and depths`} that both have`;
}

function apartInWords({ visitsApart }: SeriesOfWalls): string {
  return visitsApart === 0 ? '' : ` (${visitsApart} of them with readings up to ${mostDaysApart} days apart)`;
}
