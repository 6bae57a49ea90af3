import { averagedContrast, isStatisticsError } from '../statistics/index.js';
import type { EstimateWithInterval, Primary, PrimaryOptions } from './primary-difference.js';
import {
  quantityOfTwoWalls,
  reasonsOfSeries,
  regressionOf,
  takenOfErrors,
  takenOfTwoWalls,
  tooShortSeries,
} from './series-model.js';
import type { SeriesOfWalls } from './series-of-walls.js';

/**
 * The primary difference of a trial with two walls: treated less untreated wall at each common visit, the after window's level
 * less the before window's, its interval averaged over how much neighbouring visits may resemble each other.
 *
 * @example pairedSeries(series, { level: 0.95, unit: '% by mass' }).estimate.estimate // -1.233
 */
export function pairedSeries(series: SeriesOfWalls, { level, unit }: PrimaryOptions): Primary {
  const walls = { treated: 1, untreated: 1 };
  const short = tooShortSeries(series);
  const difference = series.treated.change - series.untreated.change;
  const failed = (reason: string): Primary => ({ kind: 'not-estimated', reason, difference, walls });
  if (short !== undefined) return failed(short);
  try {
    const { estimate, interval, pValue } = averagedContrast(regressionOf(series), { step: 1 }, { level });
    const found: EstimateWithInterval = {
      id: 'wall-change',
      label: 'Change of the difference of two walls',
      quantity: quantityOfTwoWalls,
      unit,
      estimate,
      interval,
      pValue,
      method: `${placesInWords(series)} at each of ${series.visits.length} common visits, level after less level before, interval by Student’s t averaged over the first-order autocorrelation`,
      assumptions: [...takenOfTwoWalls, takenOfErrors],
      walls,
    };
    return { kind: 'estimated', method: 'paired-series', estimate: found };
  } catch (error) {
    if (!isStatisticsError(error)) throw error;
    return failed(reasonsOfSeries[error.fault] ?? 'the series of the two walls cannot be judged');
  }
}

function placesInWords({ matchedPlaces }: SeriesOfWalls): string {
  if (matchedPlaces === 0) return 'treated less untreated wall';
  return `treated less untreated wall at ${matchedPlaces === 1 ? 'the one height and depth' : `${matchedPlaces} heights and depths`} that both have`;
}
