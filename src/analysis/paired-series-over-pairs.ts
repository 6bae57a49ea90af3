import { averagedContrast, paired } from '../statistics/index.js';
import type { Answer } from './answer.js';
import { estimatedUnlessRefused } from './not-estimated.js';
import type { PrimaryOptions } from './primary-difference.js';
import { reasonsOfSeries, regressionOf, tooShortSeries } from './series-model.js';
import type { SeriesOfWalls } from './series-of-walls.js';

/**
 * Several pairs of walls, each judged by its own series, and pooled with pairs as the units; undefined where fewer than two
 * pairs have a series that is long enough.
 *
 * @example
 * const other = { ...series, visits: series.visits.map((visit) => ({ ...visit, difference: 1.2 * visit.difference })) };
 * pairedSeriesOverPairs([series, other], { level: 0.95, unit: '% by mass' }).estimate.degreesOfFreedom // 1
 */
export function pairedSeriesOverPairs(
  all: readonly SeriesOfWalls[],
  { level, unit }: PrimaryOptions,
): Answer | undefined {
  const long = all.filter((series) => tooShortSeries(series) === undefined);
  if (long.length < 2) return undefined;
  const named = { id: 'paired-series', about: { kind: 'pooled-pairs' } } as const;
  return estimatedUnlessRefused(
    named,
    () => {
      const changes = long.map((series) => averagedContrast(regressionOf(series), { step: 1 }).estimate);
      const { estimate, interval, standardError, degreesOfFreedom, pValue } = paired(changes, { level });
      return {
        kind: 'estimated',
        estimate: {
          ...named,
          unit,
          estimate,
          interval,
          standardError,
          degreesOfFreedom,
          pValue,
          method: { kind: 'paired-series-pooled', pairs: long.length, of: all.length },
          walls: { treated: long.length, untreated: long.length },
        },
      };
    },
    reasonsOfSeries,
  );
}
