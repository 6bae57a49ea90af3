import { unlessRefused } from '../plain/unless-refused.js';
import {
  averagedContrast,
  effectiveSampleSize,
  type Interval,
  isStatisticsError,
  type PlaceboDate,
  placeboDates,
} from '../statistics/index.js';
import { countsOf, regressionOf, tooShortSeries } from './series-model.js';
import type { SeriesOfWalls } from './series-of-walls.js';

/** A sensor read every day would have hundreds, and neighbouring ones say the same. */
const mostPlaceboDates = 40;

interface EstimateOfSeries {
  readonly estimate: number;
  readonly interval: Interval;
}

/** What the series of two walls says of itself, and against itself. */
export interface SeriesChecks {
  /** Of the difference of the walls in either window. */
  readonly levels: { readonly before: EstimateOfSeries; readonly after: EstimateOfSeries };
  /** Mean autocorrelation of the difference from one visit to the next, after subtracting the change between the windows. */
  readonly correlation: number;
  /** Visits of the shorter window, and how many independent ones they are worth. */
  readonly visits: number;
  readonly effectiveVisits: number;
  /** Of the difference before the treatment, in the outcome's unit in 30 days. */
  readonly trendPer30Days: EstimateOfSeries;
  /** Changes looked for inside the before window, where none was made. */
  readonly placebo: readonly PlaceboDate[];
  /** Smallest p-value of the placebo dates times their number (Bonferroni), at most 1. */
  readonly placeboPValue: number;
}

/**
 * Autocorrelation, trend and false alarms of a series of two walls; undefined where it is too short or cannot be judged.
 *
 * @example seriesChecks(series, { level: 0.95 }).effectiveVisits // 5.273
 */
export function seriesChecks(series: SeriesOfWalls, { level }: { readonly level: number }): SeriesChecks | undefined {
  if (tooShortSeries(series) !== undefined) return undefined;
  const [before, after] = countsOf(series);
  const whole = regressionOf(series);
  const early = { response: whole.response.slice(0, before), times: whole.times.slice(0, before) };
  const line = [
    { name: 'intercept', values: early.times.map(() => 1) },
    { name: 'trend', values: early.times },
  ];
  const levelOf = (weights: Readonly<Record<string, number>>) => averagedContrast(whole, weights, { level });
  return unlessRefused(isStatisticsError, () => {
    const { correlation } = levelOf({ step: 1 });
    const visits = Math.min(before, after);
    const placebo = placeboDates(early.response, early.times, { level, most: mostPlaceboDates });
    const trend = averagedContrast({ design: { columns: line }, ...early }, { trend: 30 }, { level });
    return {
      levels: { before: levelOf({ intercept: 1 }), after: levelOf({ intercept: 1, step: 1 }) },
      correlation,
      visits,
      effectiveVisits: effectiveSampleSize(visits, correlation),
      trendPer30Days: trend,
      placebo,
      placeboPValue: Math.min(1, placebo.length * Math.min(...placebo.map(({ pValue }) => pValue))),
    };
  });
}
