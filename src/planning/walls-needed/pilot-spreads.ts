import { stationChanges, type WallChange, wallChanges } from '../../analysis/index.js';
import { type MoistureReading, moistureReadings } from '../../moisture/index.js';
import { groupBy } from '../../plain/group-by.js';
import { chiSquare, mean, median, variance } from '../../statistics/index.js';
import { daySorter, type Trial } from '../../trial/index.js';
import { PlanningError } from '../planning-error.js';
import type { Sampling, Spreads } from './change-variance.js';
import type { UncertainWalls } from './uncertain-walls.js';

/** What a trial that is over says of how walls and readings scatter. */
export interface PilotSpreads {
  readonly spreads: Spreads;
  readonly uncertainty: UncertainWalls;
  /** The standard deviation between walls with its chi-square interval at 95 %. */
  readonly walls: { readonly estimate: number; readonly lower: number; readonly upper: number };
  /** Walls with a change, over all arms. */
  readonly count: number;
  readonly sampling: Sampling;
}

/**
 * The spreads of a pilot, each the root of a variance component, by the method of moments: walls inside arms, stations inside walls, visits
 * common to a wall's stations, and single readings. What one level shows holds the scatter of the level below, which is taken off; what is left
 * is never below 0. Where every station was read on one visit a window, visits and readings cannot be distinguished from stations, and count there.
 *
 * @param autocorrelation of successive visits: few visits say nothing of it, so the plan has to
 * @throws PlanningError `too-few` for a pilot with one wall in each arm
 * @example pilotSpreads(trial, 0).uncertainty.degreesOfFreedom // 22
 */
export function pilotSpreads(trial: Trial, autocorrelation: number): PilotSpreads {
  const readings = moistureReadings(trial);
  const { stations, used } = stationChanges(trial, readings);
  const walls = wallChanges(trial, stations).walls.filter(({ before }) => before !== undefined);
  const ofWalls = insideArms(walls);
  const visits = visitComponents(trial, used);
  const stationGroups = groupsOf(
    stations.flatMap(({ wall, before, after }) =>
      before === undefined || after === undefined ? [] : [{ key: wall, value: after - before }],
    ),
  );
  const sampling: Sampling = {
    stations: Math.max(1, Math.round(median(stationGroups.map(({ length }) => length)))),
    ...visits.counts,
  };
  const onceBoth = 1 / sampling.visitsBefore + 1 / sampling.visitsAfter;
  const ofStations = Math.max(0, pooled(stationGroups) - visits.readings * onceBoth);
  const inside =
    ofStations / sampling.stations + visits.visits * onceBoth + (visits.readings / sampling.stations) * onceBoth;
  const uncertainty = { variance: ofWalls.variance, degreesOfFreedom: ofWalls.degreesOfFreedom, inside };
  const squares = chiSquare(ofWalls.degreesOfFreedom);
  const sumOfSquares = ofWalls.variance * ofWalls.degreesOfFreedom;
  const between = (total: number) => Math.sqrt(Math.max(0, total - inside));
  const estimate = between(ofWalls.variance);
  return {
    spreads: {
      walls: estimate,
      stations: Math.sqrt(ofStations),
      visits: Math.sqrt(visits.visits),
      readings: Math.sqrt(visits.readings),
      measurement: 0,
      autocorrelation,
      correlation: correlationInBlocks(walls, ofWalls.variance, estimate),
    },
    uncertainty,
    walls: {
      estimate,
      lower: between(sumOfSquares / squares.upperQuantile(0.025)),
      upper: between(sumOfSquares / squares.quantile(0.025)),
    },
    count: walls.length,
    sampling,
  };
}

function insideArms(walls: readonly WallChange[]): { readonly variance: number; readonly degreesOfFreedom: number } {
  const arms = groupsOf(walls.map(({ arm, change }) => ({ key: arm, value: change })));
  const degreesOfFreedom = arms.reduce((sum, { length }) => sum + length - 1, 0);
  if (degreesOfFreedom < 1)
    throw new PlanningError(
      'pilotSpreads',
      'too-few',
      'needs two walls with a change in an arm, for one wall an arm shows nothing of how walls treated alike differ',
    );
  return { variance: pooled(arms), degreesOfFreedom };
}

/** Of two walls in a block and in different arms: what their changes have in common, in shares of the variance between walls. */
function correlationInBlocks(walls: readonly WallChange[], total: number, between: number): number {
  const arms = new Map<string, number>();
  for (const [arm, changes] of groupBy(walls, ({ arm: name }) => name))
    arms.set(arm, mean(changes.map(({ change }) => change)));
  const blocks = [...groupBy(walls, ({ block }) => block)].filter(([block, { length }]) => block !== '' && length > 1);
  if (blocks.length < 3 || between === 0) return 0;
  // Walls less the mean of their arm, so that the effect is not counted as scatter.
  const inside = pooled(blocks.map(([, members]) => members.map(({ arm, change }) => change - (arms.get(arm) ?? 0))));
  // One degree of freedom an arm but one went to the means.
  const lost = blocks.reduce((sum, [, { length }]) => sum + length - 1, 0);
  const corrected = (inside * lost) / Math.max(1, lost - (arms.size - 1));
  return Math.max(-1, Math.min(1, (total - corrected) / between ** 2));
}

interface VisitComponents {
  readonly visits: number;
  readonly readings: number;
  readonly counts: { readonly visitsBefore: number; readonly visitsAfter: number };
}

/** Two-way, visits by stations, inside every wall and window: over visits at which all stations of the wall were read. */
function visitComponents(trial: Trial, used: readonly MoistureReading[]): VisitComponents {
  const sorted = daySorter(trial);
  const windows = groupBy(used, ({ wall, day }) => JSON.stringify([wall, sorted(wall, day)]));
  const tables = [...windows.values()].map(tableOf);
  let [visitSquares, visitDegrees, restSquares, restDegrees, sizes] = [0, 0, 0, 0, 0];
  for (const rows of tables) {
    const stations = rows[0]?.length ?? 0;
    if (rows.length < 2) continue;
    const rowMeans = rows.map(mean);
    const columnMeans = Array.from({ length: stations }, (_, at) => mean(rows.map((row) => row[at] ?? 0)));
    const grand = mean(rowMeans);
    const degrees = rows.length - 1;
    visitSquares += stations * rowMeans.reduce((sum, value) => sum + (value - grand) ** 2, 0);
    visitDegrees += degrees;
    sizes += degrees * stations;
    restDegrees += degrees * (stations - 1);
    for (const [at, row] of rows.entries())
      for (const [column, value] of row.entries())
        restSquares += (value - (rowMeans[at] ?? 0) - (columnMeans[column] ?? 0) + grand) ** 2;
  }
  const counts = {
    visitsBefore: visitsIn(windows, 'before'),
    visitsAfter: visitsIn(windows, 'after'),
  };
  if (visitDegrees === 0) return { visits: 0, readings: 0, counts };
  const readings = restDegrees === 0 ? 0 : restSquares / restDegrees;
  const visits = Math.max(0, (visitSquares - visitDegrees * readings) / sizes);
  return { visits, readings, counts };
}

function visitsIn(windows: ReadonlyMap<string, readonly MoistureReading[]>, name: 'before' | 'after'): number {
  const counts = [...windows].flatMap(([key, readings]) =>
    key.endsWith(`"${name}"]`) ? [new Set(readings.map(({ day }) => day)).size] : [],
  );
  return counts.length === 0 ? 1 : Math.max(1, Math.round(median(counts)));
}

/** A row a visit at which every station was read, a column a station. */
function tableOf(readings: readonly MoistureReading[]): readonly (readonly number[])[] {
  const stations = [...new Set(readings.map(({ station }) => station))];
  const days = [...groupBy(readings, ({ day }) => day).values()];
  return days.flatMap((ofDay) => {
    const row = stations.map((station) =>
      ofDay.flatMap(({ station: own, value }) => (own === station && value.kind === 'measured' ? [value.value] : [])),
    );
    return row.every(({ length }) => length > 0) ? [row.map(mean)] : [];
  });
}

function groupsOf(values: readonly { readonly key: string; readonly value: number }[]): readonly (readonly number[])[] {
  return [...groupBy(values, ({ key }) => key).values()].map((group) => group.map(({ value }) => value));
}

/** Mean of the variances inside groups, weighted by their degrees of freedom; 0 where no group has two values. */
function pooled(groups: readonly (readonly number[])[]): number {
  const several = groups.filter(({ length }) => length > 1);
  const degrees = several.reduce((sum, { length }) => sum + length - 1, 0);
  const squares = several.reduce((sum, group) => sum + variance(group) * (group.length - 1), 0);
  return degrees === 0 ? 0 : squares / degrees;
}
