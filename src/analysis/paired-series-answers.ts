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
import { notEstimated } from './not-estimated.js';
import type { PrimaryOptions } from './primary-difference.js';
import {
  countOfSeries,
  countsOf,
  reasonsOfSeries,
  regressionOf,
  seriesWords,
  stepOf,
  takenOfErrors,
  tooShortSeries,
} from './series-model.js';
import type { SeriesOfWalls } from './series-of-walls.js';

export interface PairedSeriesOptions extends PrimaryOptions {
  readonly seed: number;
  /** What the air took up around each visit, by ISO day; visits without it cannot enter the answer with weather. */
  readonly weather?: ReadonlyMap<string, number>;
}

/**
 * Other answers to what the walls of a series did, beside the primary one: at the best-fitting autocorrelation, by Newey and West, with
 * the trend before taken off, and with the weather taken off where it was recorded. None of them where the series is too short.
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
  what: Pick<Estimate, 'id' | 'label' | 'method' | 'assumptions'>,
  unit: string,
  find: () => Found,
): Answer {
  try {
    return {
      kind: 'estimated',
      estimate: { ...what, quantity: seriesWords(series).quantity, unit, ...find(), walls: countOfSeries(series) },
    };
  } catch (error) {
    return notEstimated(what.id, what.label, error, reasonsOfSeries);
  }
}

function bestFitting(series: SeriesOfWalls, { level, unit }: PrimaryOptions): Answer {
  const what = {
    id: 'paired-series',
    label: 'At the best-fitting autocorrelation',
    method:
      'generalised least squares with first-order autocorrelation by restricted maximum likelihood, standard error and degrees of freedom by Kenward and Roger',
    assumptions: [...seriesWords(series).taken, takenOfErrors, 'the best-fitting autocorrelation is near the true one'],
  };
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
  const what = {
    id: 'paired-series-robust',
    label: 'Whatever the autocorrelation, by Newey and West',
    method: `least squares with Newey and West’s standard error over half the length of the series, its limits from 10,000 drawn series with seed ${seed}`,
    assumptions: [
      ...seriesWords(series).taken,
      'the series is long, visits lie about evenly, and they do not resemble each other much',
    ],
  };
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
  const what = {
    id: 'paired-series-trend',
    label: 'With the trend before taken off',
    method:
      'a line through the before visits and one through the after visits, how far apart they are in the middle of the after window, interval by Student’s t averaged over the first-order autocorrelation',
    assumptions: [
      seriesWords(series).taken[0],
      'the walls would have gone on drifting apart or together as they did before',
      takenOfErrors,
    ],
  };
  return answered(series, what, unit, () => {
    const { visits } = series;
    const times = visits.map(({ time_d }) => time_d);
    const late = visits.map(({ window }) => (window === 'after' ? 1 : 0));
    const [before] = countsOf(series);
    const change = (times[before - 1]! + times[before]!) / 2;
    const design = stepAndSlopeDesign(times, late, change);
    const middle = mean(times.slice(before)) - change;
    return foundBy(averagedContrast(regressionOf(series, design), { step: 1, 'change of slope': middle }, { level }));
  });
}

function withWeather(series: SeriesOfWalls, weather: ReadonlyMap<string, number>, options: PrimaryOptions): Answer {
  const what = {
    id: 'paired-series-weather',
    label: 'With the weather taken off',
    method:
      'the same with the vapour pressure difference of the thirty days before each visit taken off as a straight line, interval by Student’s t averaged over the first-order autocorrelation',
    assumptions: [
      seriesWords(series).taken[0],
      'the weather moves the difference of the walls in a straight line',
      takenOfErrors,
    ],
  };
  return answered(series, what, options.unit, () => {
    const visits = series.visits.filter(({ day }) => weather.has(day));
    const known = { ...series, visits };
    const values = visits.map(({ day }) => weather.get(day)!);
    const centre = mean(values);
    const air = { name: 'weather', values: values.map((value) => (value - centre) / 100) };
    const design = { columns: [...stepOf(known).columns, air] };
    return foundBy(averagedContrast(regressionOf(known, design), { step: 1 }, { level: options.level }));
  });
}

function foundBy({ estimate, interval, pValue }: Found): Found {
  return { estimate, ...(interval === undefined ? {} : { interval }), ...(pValue === undefined ? {} : { pValue }) };
}
