import { itemAt } from '../plain/in-order.js';
import { present } from '../plain/present.js';
import {
  autoregressiveContrast,
  autoregressiveLeastSquares,
  averagedContrast,
  mean,
  neweyWestContrast,
  stepAndSlopeDesign,
} from '../statistics/index.js';
import type { Answer } from './answer.js';
import type { Estimate } from './estimate.js';
import { estimatedUnlessRefused } from './not-estimated.js';
import type { PrimaryOptions } from './primary-difference.js';
import { countOfSeries, countsOf, reasonsOfSeries, regressionOf, stepOf, tooShortSeries } from './series-model.js';
import type { SeriesOfWalls } from './series-of-walls.js';

export interface PairedSeriesOptions extends PrimaryOptions {
  readonly seed: number;
  /** What the air took up around each visit, by ISO day; visits without it cannot enter the answer with weather. */
  readonly weather?: ReadonlyMap<string, number>;
}

/**
 * Other answers to what the walls of a series did, beside the primary one: at the best-fitting autocorrelation, by Newey and West, with
 * adjusted for the trend before, and for the weather where it was recorded. None of them where the series is too short.
 *
 * @example pairedSeriesAnswers(series, { level: 0.95, unit: '% by mass', seed: 1 }).map(({ estimate }) => estimate?.id) // ['paired-series', 'paired-series-robust', 'paired-series-trend']
 */
export function pairedSeriesAnswers(series: SeriesOfWalls, options: PairedSeriesOptions): readonly Answer[] {
  if (tooShortSeries(series) !== undefined) return [];
  return [
    bestFitting(series, options),
    robust(series, options),
    withTrend(series, options),
    ...(options.weather === undefined ? [] : [withWeather(series, options.weather, options)]),
  ];
}

type Found = Pick<Estimate, 'estimate' | 'interval' | 'standardError' | 'degreesOfFreedom' | 'pValue'>;

function answered(
  series: SeriesOfWalls,
  what: Pick<Estimate, 'id' | 'method'>,
  unit: string,
  find: () => Found,
): Answer {
  return estimatedUnlessRefused(
    { id: what.id },
    () => {
      return {
        kind: 'estimated',
        estimate: { ...what, unit, ...find(), walls: countOfSeries(series) },
      };
    },
    reasonsOfSeries,
  );
}

function bestFitting(series: SeriesOfWalls, { level, unit }: PrimaryOptions): Answer {
  const what = { id: 'paired-series', method: { kind: 'paired-series-fitted' } } as const;
  return answered(series, what, unit, () => {
    const { estimate, interval, standardError, degreesOfFreedom, pValue } = autoregressiveContrast(
      autoregressiveLeastSquares(regressionOf(series)),
      { step: 1 },
      { level },
    );
    return { estimate, interval, standardError, degreesOfFreedom, pValue };
  });
}

function robust(series: SeriesOfWalls, { level, unit, seed }: PairedSeriesOptions): Answer {
  const what = { id: 'paired-series-robust', method: { kind: 'paired-series-robust', seed } } as const;
  return answered(series, what, unit, () => {
    const { design, response } = regressionOf(series);
    const { estimate, interval, standardError, pValue } = neweyWestContrast(
      design,
      response,
      { step: 1 },
      { level, seed },
    );
    return { estimate, interval, standardError, pValue };
  });
}

/** Against what the trend before would have led to by the middle of the after window. */
function withTrend(series: SeriesOfWalls, { level, unit }: PrimaryOptions): Answer {
  const what = { id: 'paired-series-trend', method: { kind: 'paired-series-trend' } } as const;
  return answered(series, what, unit, () => {
    const { visits } = series;
    const times = visits.map(({ time_d }) => time_d);
    const late = visits.map(({ window }) => (window === 'after' ? 1 : 0));
    const [before] = countsOf(series);
    const change = (itemAt(times, before - 1) + itemAt(times, before)) / 2;
    const design = stepAndSlopeDesign(times, late, change);
    const middle = mean(times.slice(before)) - change;
    return foundBy(averagedContrast(regressionOf(series, design), { step: 1, 'change of slope': middle }, { level }));
  });
}

function withWeather(series: SeriesOfWalls, weather: ReadonlyMap<string, number>, options: PrimaryOptions): Answer {
  const what = { id: 'paired-series-weather', method: { kind: 'paired-series-weather' } } as const;
  return answered(series, what, options.unit, () => {
    const visits = series.visits.filter(({ day }) => weather.has(day));
    const known = { ...series, visits };
    const values = visits.flatMap(({ day }) => weather.get(day) ?? []);
    const centre = mean(values);
    const air = { name: 'weather', values: values.map((value) => (value - centre) / 100) };
    const design = { columns: [...stepOf(known).columns, air] };
    return foundBy(averagedContrast(regressionOf(known, design), { step: 1 }, { level: options.level }));
  });
}

function foundBy({ estimate, interval, pValue }: Found): Found {
  return { estimate, ...present({ interval, pValue }) };
}
