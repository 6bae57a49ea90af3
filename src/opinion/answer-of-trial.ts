import {
  type ComparisonDesign,
  comparisonDesign,
  comparisonSides,
  type LeftOutReadings,
  type LeftOutWall,
  type Primary,
  pairedSeries,
  primaryDifference,
  type Side,
  type StationChange,
  stationChanges,
  type UnitsOfComparison,
  unitsOfComparison,
  type VerdictCode,
  verdictCode,
  type WallChange,
  wallChanges,
  withoutWalls,
} from '../analysis/index.js';
import { seriesOfTwoWalls, type TwoWallSeries } from '../findings/two-walls/two-wall-series.js';
import { type MoistureReading, moistureReadings } from '../moisture/index.js';
import { present } from '../plain/present.js';
import type { Trial } from '../trial/index.js';
import { type MarginOrigin, withMargin } from './margin-of-trial.js';

/** The primary answer of a trial with everything that it comes from, before anybody has asked what threatens it. */
export interface TrialAnswer {
  /** The trial with its margin as a number, also where a pass mark gives it. */
  readonly trial: Trial;
  readonly marginOrigin: MarginOrigin;
  readonly readings: readonly MoistureReading[];
  /** Of the outcome, of walls read in both windows, those that stand alone in their block included. */
  readonly readInBoth: readonly MoistureReading[];
  readonly sides: ReadonlyMap<string, Side>;
  readonly walls: readonly WallChange[];
  readonly units: UnitsOfComparison;
  readonly leftOutWalls: readonly LeftOutWall[];
  readonly stations: readonly StationChange[];
  /** The outcome readings behind the walls' changes. */
  readonly used: readonly MoistureReading[];
  readonly leftOutReadings: readonly LeftOutReadings[];
  readonly design: ComparisonDesign;
  readonly primary: Primary;
  readonly twoWalls?: TwoWallSeries;
  /** What the interval alone says; the verdict is `not-answerable` instead where a fatal threat is found. */
  readonly code: VerdictCode;
}

/**
 * From a checked trial to its primary answer, and to what its interval says against zero and the margin. It takes milliseconds, so that
 * trials can be simulated by the thousand.
 *
 *     readings ──1──▶ stations ──2──▶ walls ──3──▶ units ──4──▶ interval ──▶ code
 *     (moisture)      before, after   change       design       (primary)
 *
 * @example answerOfTrial(trial).code // 'worthwhile'
 */
export function answerOfTrial(planned: Trial): TrialAnswer {
  // 1. Cores become moisture; a station has a mean before and a mean after. A pass mark becomes a margin by the means before.
  const readings = moistureReadings(planned);
  const allStations = stationChanges(planned, readings);
  const { trial, origin: marginOrigin } = withMargin(planned, allStations.stations);
  const { protocol } = trial;

  // 2. A wall's change is the mean over its stations.
  const changes = wallChanges(trial, allStations.stations);

  // 3. Walls that were allocated as one count as one; how these units are arranged decides the method.
  const units = unitsOfComparison(trial, changes.walls);
  const { design, leftOut: unitsLeftOut } = comparisonDesign(units.units);
  const leftOut = wallsOfUnits(unitsLeftOut, units);
  const stations = withoutWalls(allStations, leftOut);
  const walls = units.kind === 'wall' ? design.walls : without(changes.walls, leftOut);

  // 4. The primary answer.
  const options = { level: protocol.confidence, unit: protocol.outcome.unit };
  const twoWalls = seriesOfTwoWalls(trial, allStations.used, design, units);
  const primary = twoWalls === undefined ? primaryDifference(design, options) : pairedSeries(twoWalls.series, options);
  return {
    trial,
    marginOrigin,
    readings,
    readInBoth: allStations.used,
    sides: sidesOfWalls(trial),
    walls,
    units,
    leftOutWalls: [...changes.leftOut, ...leftOut],
    stations: stations.stations,
    used: stations.used,
    leftOutReadings: stations.leftOut,
    design,
    primary,
    ...present({ twoWalls }),
    code:
      primary.kind === 'not-estimated'
        ? 'not-answerable'
        : verdictCode(primary.estimate.interval, protocol.margin, protocol.outcome.better),
  };
}

/** The walls of the units that stand alone in their block. */
function wallsOfUnits(leftOut: readonly LeftOutWall[], { members }: UnitsOfComparison): readonly LeftOutWall[] {
  return leftOut.flatMap(({ wall: unit, reason }) => (members.get(unit) ?? [unit]).map((wall) => ({ wall, reason })));
}

function without(walls: readonly WallChange[], leftOut: readonly LeftOutWall[]): readonly WallChange[] {
  const alone = new Set(leftOut.map(({ wall }) => wall));
  return walls.filter(({ wall }) => !alone.has(wall));
}

function sidesOfWalls({ protocol, walls }: Trial): ReadonlyMap<string, Side> {
  const sides = comparisonSides(protocol);
  return new Map(
    walls.flatMap(({ wall, arm }): [string, Side][] => {
      const side = sides.get(arm);
      return side === undefined ? [] : [[wall, side]];
    }),
  );
}
