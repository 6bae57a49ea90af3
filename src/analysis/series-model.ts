import { type DesignMatrix, type SeriesRegression, stepDesign } from '../statistics/index.js';
import type { WallCount } from './estimate.js';
import type { ReasonsByFault } from './not-estimated.js';
import type { Reason } from './reason.js';
import type { SeriesOfWalls } from './series-of-walls.js';
import type { WallChange } from './wall-change.js';

/**
 * Common visits that either window must have before two walls are judged by their series: a year of monthly ones. The
 * interval holds with eight as well (tests/simulation/paired-series.md), but eight before leave a single placebo date and
 * hardly show a trend.
 */
export const fewestSeriesVisits = 12;

/** What stands on either side: walls, or one for a site, a block or a stretch of wall. */
export function countOfSeries({ treated, untreated }: SeriesOfWalls): WallCount {
  const count = ({ unit }: WallChange) => (unit?.kind === 'wall' ? unit.walls.length : 1);
  return { treated: count(treated), untreated: count(untreated) };
}

export const reasonsOfSeries: ReasonsByFault = {
  'no-variation': { code: 'series-does-not-vary' },
  'not-converged': { code: 'series-too-steady' },
  collinear: { code: 'after-is-window' },
};

/** Why the series is too short; undefined where it is long enough. */
export function tooShortSeries(series: SeriesOfWalls): Reason | undefined {
  const [before, after] = countsOf(series);
  if (Math.min(before, after) >= fewestSeriesVisits) return undefined;
  const { treated, untreated } = countOfSeries(series);
  const isOfTwo = treated + untreated === 2;
  return { code: 'series-too-short', before, after, needed: fewestSeriesVisits, isOfTwo };
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
