import { type DesignMatrix, type SeriesRegression, stepDesign } from '../statistics/index.js';
import type { WallCount } from './estimate.js';
import type { ReasonsByFault } from './not-estimated.js';
import type { SeriesOfWalls } from './series-of-walls.js';
import type { WallChange } from './wall-change.js';

/**
 * Common visits that either window must have before two walls are judged by their series: a year of monthly ones. The
 * interval holds with eight as well (tests/simulation/paired-series.md), but eight before leave a single placebo date and
 * hardly show a trend.
 */
export const fewestSeriesVisits = 12;

/** What all analyses of such a series share: quantity, assumptions, and what a fault of a statistic means. */
export interface SeriesWords {
  readonly quantity: string;
  readonly taken: readonly [ofWalls: string, ofLevels: string];
}

export function seriesWords(series: SeriesOfWalls): SeriesWords {
  const { treated, untreated } = countOfSeries(series);
  const levels = 'the difference of the walls keeps to one level in each window, apart from errors';
  if (treated + untreated === 2)
    return {
      quantity: 'treated wall’s change less untreated wall’s change, of these two walls only',
      taken: [
        'it speaks of these two walls: nothing but the treatment came to set one of them apart between the windows',
        levels,
      ],
    };
  const side = (name: string, count: number) =>
    count === 1 ? `${name} wall’s change` : `mean change of the ${count} ${name} walls`;
  return {
    quantity: `${side('treated', treated)} less ${side('untreated', untreated)}, of these walls only`,
    taken: [
      'it speaks of these walls: nothing but the treatment came to set the single one apart from the others between the windows',
      levels,
    ],
  };
}

/** What stands on either side: walls, or one for a site, a block or a stretch of wall. */
export function countOfSeries({ treated, untreated }: SeriesOfWalls): WallCount {
  const count = ({ unit }: WallChange) => (unit?.kind === 'wall' ? unit.walls.length : 1);
  return { treated: count(treated), untreated: count(untreated) };
}

export const takenOfErrors =
  'errors resemble the visit before, ever less the longer ago it was, and are roughly normal';
export const reasonsOfSeries: ReasonsByFault = {
  'no-variation': 'the difference of the walls does not vary between visits at all, as that of real walls always does',
  'not-converged': 'the series is so steady from visit to visit that no autocorrelation below 1 fits best',
  collinear: 'the visits cannot tell it from the change between the windows',
};

/** Why the series is too short, in words that end a sentence; undefined where it is long enough. */
export function tooShortSeries(series: SeriesOfWalls): string | undefined {
  const [before, after] = countsOf(series);
  if (Math.min(before, after) >= fewestSeriesVisits) return undefined;
  const { treated, untreated } = countOfSeries(series);
  const [walls, these] = treated + untreated === 2 ? ['the two walls', 'these two'] : ['all walls', 'these'];
  return `${walls} were read on ${before} common days before and ${after} after, and it takes ${fewestSeriesVisits} of each to judge even what ${these} did`;
}

/** Visits before and after. */
export function countsOf({ visits }: SeriesOfWalls): readonly [number, number] {
  const before = visits.filter(({ window }) => window === 'before').length;
  return [before, visits.length - before];
}

/** The differences over time, on a step between the windows unless told otherwise. */
export function regressionOf(series: SeriesOfWalls, design: DesignMatrix = stepOf(series)): SeriesRegression {
  const { visits } = series;
  return { design, response: visits.map(({ difference }) => difference), times: visits.map(({ time_d }) => time_d) };
}

export function stepOf({ visits }: SeriesOfWalls): DesignMatrix {
  return stepDesign(visits.map(({ window }) => (window === 'after' ? 1 : 0)));
}
