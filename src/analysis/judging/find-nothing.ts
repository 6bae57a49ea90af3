import type { MoistureReading } from '../../moisture/index.js';
import { groupBy, valuesBy } from '../../plain/group-by.js';
import { isStatisticsError, mean, regressionToTheMean, variance, welch } from '../../statistics/index.js';
import { daySorter, hasWindows, isInWindow, type Trial, type Wall, type Windows } from '../../trial/index.js';
import { measuredValue } from '../../trial/measured-value.js';
import type { Answer } from '../answer.js';
import { compareWalls } from '../compare-walls.js';
import { isAfterAlone } from '../compared.js';
import type { ComparisonDesign } from '../comparison-design.js';
import { notEstimated, refused } from '../not-estimated.js';
import type { Reason } from '../reason.js';
import type { PlacedWall } from '../wall-change.js';
import { namesOfWalls } from '../walls-as-one.js';
import { answerFromReadings } from './answer-from-readings.js';
import { groupsByWindows } from './groups-by-windows.js';

/**
 * An effect before there was any treatment: the later half of the days before it against the earlier half, treated less
 * untreated walls. Nothing should be found.
 *
 * @example effectBeforeTreatment(trial, outcomeReadings).estimate.estimate // -0.1796
 */
export function effectBeforeTreatment(trial: Trial, outcomeReadings: readonly MoistureReading[]): Answer {
  const id = 'placebo-dates';
  if (!hasWindows(trial)) return refused({ id }, { code: 'no-windows' });
  const halves = new Map(groupsByWindows(trial).map((group) => [group, halvesBefore(trial, group, outcomeReadings)]));
  if (![...halves.values()].some((found) => found !== undefined))
    return refused({ id }, { code: 'too-few-days-before' });
  // No window holds a reading of a wall whose group was read on a single day.
  const never = { before: { from: '', to: '' }, after: { from: '', to: '' } };
  const walls = [...halves].flatMap(([group, found = never]) =>
    group.map(({ treatedOn: _, ...wall }) => ({ ...wall, windows: found })),
  );
  return answerFromReadings({ ...trial, walls: inOrderOf(trial.walls, walls) }, outcomeReadings, { id });
}

/** The earlier and the later half of the days on which a group was read before any of it was treated. */
function halvesBefore(
  { protocol }: Trial,
  group: readonly Wall[],
  readings: readonly MoistureReading[],
): Windows | undefined {
  const windows = group[0]?.windows ?? protocol.windows;
  if (windows === undefined) return undefined;
  const treatedOn = group.flatMap((wall) => wall.treatedOn ?? []).sort()[0] ?? windows.after.from;
  const names = new Set(group.map(({ wall }) => wall));
  const early = readings.filter(
    ({ wall, day }) => names.has(wall) && isInWindow(day, windows.before) && day < treatedOn,
  );
  const days = [...new Set(early.map(({ day }) => day))].sort();
  const [first, last] = [days[0], days.at(-1)];
  const [middle, next] = [days[Math.ceil(days.length / 2) - 1], days[Math.ceil(days.length / 2)]];
  if (first === undefined || last === undefined || middle === undefined || next === undefined) return undefined;
  return { before: { from: first, to: middle }, after: { from: next, to: last } };
}

function inOrderOf(order: readonly Wall[], walls: readonly Wall[]): readonly Wall[] {
  const byName = new Map(walls.map((wall) => [wall.wall, wall]));
  return order.flatMap(({ wall }) => byName.get(wall) ?? []);
}

/**
 * An effect where the plan says that none can be: above the reach of the treatment. Nothing should be found.
 *
 * @example
 * const protocol = { ...trial.protocol, unaffectedAbove_mm: 800 };
 * effectOutOfReach({ ...trial, protocol }, outcomeReadings).estimate.estimate // -3.458
 */
export function effectOutOfReach(trial: Trial, outcomeReadings: readonly MoistureReading[]): Answer {
  const id = 'out-of-reach';
  const limit = trial.protocol.unaffectedAbove_mm;
  if (limit === undefined) return refused({ id }, { code: 'no-limit-of-reach' });
  const high = new Set(
    trial.stations.flatMap(({ wall, station, height_mm }) =>
      height_mm !== undefined && height_mm > limit ? [JSON.stringify([wall, station])] : [],
    ),
  );
  if (high.size === 0) return refused({ id }, { code: 'no-station-above', height_mm: limit });
  const kept = outcomeReadings.filter(({ wall, station }) => high.has(JSON.stringify([wall, station])));
  return answerFromReadings(trial, kept, { id });
}

/**
 * Sham against plain untreated walls, where the trial has both: a sham does nothing, so nothing should be found but what
 * the attention, the workmen or the mounting did.
 *
 * @returns nothing where the trial has not both
 * @example shamAgainstControl(trial, outcomeReadings).length // 0, for this trial has no plain untreated walls
 */
export function shamAgainstControl(trial: Trial, outcomeReadings: readonly MoistureReading[]): readonly Answer[] {
  const armsOf = (role: 'sham' | 'control') => trial.protocol.arms.flatMap((one) => (one.role === role ? one.arm : []));
  const compare = { treated: armsOf('sham'), untreated: armsOf('control') };
  if (compare.treated.length === 0 || compare.untreated.length === 0) return [];
  const asTreated = { ...trial, protocol: { ...trial.protocol, compare } };
  return [answerFromReadings(asTreated, outcomeReadings, { id: 'sham-against-control' })];
}

/**
 * Untreated walls that the plan's `compare` leaves out (inner walls, say) against those in the comparison, blocks aside: neither
 * was treated, so nothing should be found.
 *
 * @returns nothing where every untreated arm is in the comparison
 * @example untreatedOutside(trial, outcomeReadings).length // 0, for this trial compares all its walls
 */
export function untreatedOutside(trial: Trial, outcomeReadings: readonly MoistureReading[]): readonly Answer[] {
  const { arms, compare: planned } = trial.protocol;
  if (planned === undefined) return [];
  const outside = arms.flatMap(({ arm, role }) => (role === 'control' && !planned.untreated.includes(arm) ? arm : []));
  if (outside.length === 0) return [];
  const walls = trial.walls.map(({ block: _, ...wall }) => wall);
  const compare = { treated: outside, untreated: planned.untreated };
  const asTreated = { ...trial, walls, protocol: { ...trial.protocol, compare } };
  return [answerFromReadings(asTreated, outcomeReadings, { id: 'untreated-outside' })];
}

/**
 * Treated less untreated walls before the treatment. With randomised walls, chance alone sets them apart.
 *
 * @example baselineDifference(trial, design).estimate.estimate // -0.1604
 */
export function baselineDifference({ protocol }: Trial, design: ComparisonDesign): Answer {
  const id = 'baseline-difference';
  if (isAfterAlone(design.walls)) return refused({ id }, { code: 'no-before' });
  return compareWalls(
    design.walls.flatMap((wall) => (wall.before === undefined ? [] : [{ ...wall, value: wall.before }])),
    {
      id,
      quantity: protocol.outcome.quantity,
      unit: protocol.outcome.unit,
      level: protocol.confidence,
      scale: 'difference',
    },
  );
}

/**
 * Whether the treatment reaches neighbours: change of untreated walls that touch a treated one less that of those that do not.
 * A treatment that carries over makes the untreated walls better, and so hides part of its effect.
 *
 * @example
 * const walls = trial.walls.map((wall, at) => ({ ...wall, neighbours: at < 12 ? ['W02'] : [] }));
 * carryOver({ ...trial, walls }, design).estimate.estimate // -0.4484
 */
export function carryOver(trial: Trial, design: ComparisonDesign): Answer {
  const id = 'carry-over';
  if (trial.walls.every(({ neighbours }) => neighbours === undefined))
    return refused({ id }, { code: 'neighbours-unknown' });
  const treated = new Set(design.walls.flatMap((unit) => (unit.side === 'treated' ? namesOfWalls(unit) : [])));
  const touches = new Map<string, boolean>();
  for (const { wall, neighbours = [] } of trial.walls) {
    for (const other of neighbours) {
      if (treated.has(other)) touches.set(wall, true);
      if (treated.has(wall)) touches.set(other, true);
    }
  }
  const untreated = design.walls.filter(({ side }) => side === 'untreated');
  const isNear = (unit: PlacedWall) => namesOfWalls(unit).some((wall) => touches.has(wall));
  const near = untreated.filter(isNear).map(({ change }) => change);
  const far = untreated.filter((unit) => !isNear(unit)).map(({ change }) => change);
  try {
    const { estimate, interval, standardError, degreesOfFreedom, pValue } = welch(near, far, {
      level: trial.protocol.confidence,
    });
    const judged = { estimate, interval, standardError, degreesOfFreedom, pValue };
    return {
      kind: 'estimated',
      estimate: {
        ...{ id, unit: trial.protocol.outcome.unit, ...judged },
        method: { kind: 'neighbours' },
        walls: { treated: 0, untreated: near.length + far.length },
      },
    };
  } catch (error) {
    return notEstimated({ id }, error, {
      'too-few': { code: 'too-few-neighbours', near: near.length, far: far.length },
    });
  }
}

export interface ExpectedFall {
  /** By how much walls picked for being wet come down with nothing done to them. */
  readonly expected: number;
  /** Share of the variance between readings of a wall that lies between walls. */
  readonly reliability: number;
  readonly visits: number;
}

/**
 * Regression to the mean of walls picked for being wet, from what the plan says of the walls looked at (`screened`) and from
 * how a wall's visits before the treatment differ among themselves. The reason where it cannot be told.
 *
 * @example
 * const protocol = { ...trial.protocol, screened: { walls: 200, mean: 7, standardDeviation: 3, cutoff: 10 } };
 * expectedFall({ ...trial, protocol }, outcomeReadings) // { expected: 0.1631, reliability: 0.9644, visits: 1 }
 */
export function expectedFall(trial: Trial, outcomeReadings: readonly MoistureReading[]): ExpectedFall | Reason {
  const { screened, outcome } = trial.protocol;
  if (screened === undefined) return { code: 'screened-unknown' };
  const sorted = daySorter(trial);
  const within = varianceBetweenVisits(outcomeReadings.filter(({ wall, day }) => sorted(wall, day) === 'before'));
  if (within === undefined) return { code: 'no-repeated-day-before' };
  const { mean: centre, standardDeviation, cutoff } = screened;
  const reliability = Math.min(1, Math.max(0, 1 - within / standardDeviation ** 2));
  const selected = outcome.better === 'lower' ? 'above' : 'below';
  try {
    const { expected } = regressionToTheMean({ mean: centre, standardDeviation, reliability, cutoff, selected });
    return { expected, reliability, visits: 1 };
  } catch (error) {
    if (!isStatisticsError(error)) throw error;
    return { code: 'cutoff-out-of-reach' };
  }
}

/** Pooled variance of a wall's means on different days. */
function varianceBetweenVisits(readings: readonly MoistureReading[]): number | undefined {
  const visits = [...groupBy(readings, ({ wall }) => wall).values()].map((own) =>
    valuesBy(own, ({ day }) => day, measuredValue),
  );
  const repeated = visits.filter(({ size }) => size > 1).map((days) => [...days.values()].map(mean));
  if (repeated.length === 0) return undefined;
  const squares = repeated.reduce((sum, means) => sum + (means.length - 1) * variance(means), 0);
  return squares / repeated.reduce((sum, means) => sum + means.length - 1, 0);
}
