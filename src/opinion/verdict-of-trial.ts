import {
  baselineAdjusted,
  type ComparisonDesign,
  comparisonDesign,
  comparisonSides,
  type LeftOutWall,
  pairedSeries,
  primaryDifference,
  type Side,
  smallestPOfDesign,
  stationChanges,
  type UnitsOfComparison,
  unitsOfComparison,
  type WallChange,
  wallChanges,
  withoutWalls,
} from '../analysis/index.js';
import type { VerdictCode } from '../analysis/verdict-code.js';
import { verdictCode } from '../analysis/verdict-code.js';
import { dryingChecks } from '../findings/drying/drying-checks.js';
import { seriesAnswers, seriesOfTwoWalls, type TwoWallSeries } from '../findings/two-walls/two-wall-series.js';
import { type MoistureReading, moistureReadings } from '../moisture/index.js';
import type { Trial } from '../trial/index.js';
import { evidenceFrom } from './evidence.js';
import { threatNumbers } from './judging/threat-numbers.js';
import { type MarginOrigin, withMargin } from './margin-of-trial.js';
import type { Verdict } from './opinion.js';
import { seedOfRecords } from './seed-of-records.js';
import type { Facts } from './threats/facts.js';
import { findThreats, weaknessesOf } from './threats/find-threats.js';
import type { ThreatNumbers } from './threats/grounds.js';
import type { Threat } from './threats/threat.js';
import { verdictSentence } from './verdict-sentence.js';

/** The verdict with everything that it was reasoned from, before its companions and the report. */
export interface TrialVerdict {
  /** The trial with its margin as a number, also where a pass mark gives it. */
  readonly trial: Trial;
  readonly marginOrigin: MarginOrigin;
  readonly readings: readonly MoistureReading[];
  /** Of the outcome, of walls read in both windows, those that stand alone in their block included. */
  readonly readInBoth: readonly MoistureReading[];
  readonly design: ComparisonDesign;
  readonly facts: Facts;
  readonly numbers: ThreatNumbers;
  readonly threats: readonly Threat[];
  readonly verdict: Verdict;
  readonly twoWalls?: TwoWallSeries;
}

/**
 * From a checked trial to its verdict, threats to validity and evidence, without whatever does not move them (bootstraps, mixed
 * models, drying curves, stand-ins): fast enough to be simulated by the thousand.
 *
 *     readings ──1──▶ stations ──2──▶ walls ──3──▶ units ──4──▶ interval ──5──▶ threats ──6──▶ evidence, verdict
 *     (moisture)      before, after   change       design       (primary)      (one list)     (in words)
 *
 * @param seed of the drawn limits of a series of visits; from what was recorded unless told
 * @example verdictOfTrial(trial).verdict.code // 'worthwhile'
 */
export function verdictOfTrial(planned: Trial, seed: number = seedOfRecords(planned)): TrialVerdict {
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
  const sides = sidesOfWalls(trial);
  const twoWalls = seriesOfTwoWalls(trial, allStations.used, design, units);
  const primary = twoWalls === undefined ? primaryDifference(design, options) : pairedSeries(twoWalls.series, options);

  // 5. What threatens it.
  const smallestPossibleP = smallestPOfDesign(design);
  const facts: Facts = {
    trial,
    marginOrigin,
    sides,
    walls,
    units,
    leftOutWalls: [...changes.leftOut, ...leftOut],
    stations: stations.stations,
    used: stations.used,
    leftOutReadings: stations.leftOut,
    primary,
    analyses: [
      baselineAdjusted(design, options),
      ...(twoWalls === undefined
        ? []
        : seriesAnswers({ trial, used: allStations.used, design, twoWalls, units: units.units, seed })),
    ],
    ...(twoWalls === undefined ? {} : { series: twoWalls }),
    ...(smallestPossibleP === undefined ? {} : { smallestPossibleP }),
    drying: dryingChecks(trial, readings, sides),
  };
  const numbers = threatNumbers({ facts, readings, design });
  const threats = findThreats({ facts, numbers });

  // 6. What may be said in spite of it.
  const verdict = verdictFrom(facts, threats);
  const found = {
    trial,
    marginOrigin,
    readings,
    readInBoth: allStations.used,
    design,
    facts,
    numbers,
    threats,
    verdict,
  };
  return { ...found, ...(twoWalls === undefined ? {} : { twoWalls }) };
}

function verdictFrom(facts: Facts, threats: readonly Threat[]): Verdict {
  const evidence = evidenceFrom(threats);
  const { margin, outcome } = facts.trial.protocol;
  const { primary, walls } = facts;
  const code: VerdictCode =
    evidence === 'none' || primary.kind === 'not-estimated'
      ? 'not-answerable'
      : verdictCode(primary.estimate.interval, margin, outcome.better);
  const weaknesses = weaknessesOf(threats);
  const sentence = verdictSentence({ code, evidence, protocol: facts.trial.protocol, primary, walls, weaknesses });
  return { code, sentence, evidence, weaknesses };
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
