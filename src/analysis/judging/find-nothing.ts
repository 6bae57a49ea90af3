import type { MoistureReading } from '../../moisture/index.js';
import { isStatisticsError, mean, regressionToTheMean, variance, welch } from '../../statistics/index.js';
import { daySorter, hasWindows, isInWindow, type Trial, type Wall, type Windows } from '../../trial/index.js';
import type { Answer } from '../answer.js';
import { compareWalls } from '../compare-walls.js';
import type { ComparisonDesign } from '../comparison-design.js';
import { isAfterAlone, nothingReadBefore } from '../comparison-words.js';
import { notEstimated } from '../not-estimated.js';
import type { PlacedWall } from '../wall-change.js';
import { namesOfWalls } from '../walls-as-one.js';
import { answerFromReadings } from './answer-from-readings.js';
import { groupsByWindows } from './groups-by-windows.js';

const refuse = (id: string, label: string, reason: string): Answer => ({
  kind: 'not-estimated',
  notEstimated: { id, label, reason },
});

/**
 * An effect before there was any treatment: the later half of the days before it against the earlier half, treated less
 * untreated walls. Nothing should be found.
 *
 * @example effectBeforeTreatment(trial, outcomeReadings).estimate.estimate // -0.1796
 */
export function effectBeforeTreatment(trial: Trial, outcomeReadings: readonly MoistureReading[]): Answer {
  const [id, label] = ['placebo-dates', 'An effect before the treatment'];
  if (!hasWindows(trial)) return refuse(id, label, 'the plan states no windows');
  const halves = new Map(groupsByWindows(trial).map((group) => [group, halvesBefore(trial, group, outcomeReadings)]));
  if (![...halves.values()].some((found) => found !== undefined))
    return refuse(id, label, 'the walls were read on fewer than two days before the treatment');
  // No window holds a reading of a wall whose group was read on a single day.
  const never = { before: { from: '', to: '' }, after: { from: '', to: '' } };
  const walls = [...halves].flatMap(([group, found = never]) =>
    group.map(({ treatedOn: _, ...wall }) => ({ ...wall, windows: found })),
  );
  return answerFromReadings({ ...trial, walls: inOrderOf(trial.walls, walls) }, outcomeReadings, { id, label });
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
  const [id, label] = ['out-of-reach', 'An effect where none can be'];
  const limit = trial.protocol.unaffectedAbove_mm;
  if (limit === undefined) return refuse(id, label, 'the plan names no height above which the treatment cannot act');
  const high = new Set(
    trial.stations.flatMap(({ wall, station, height_mm }) =>
      height_mm !== undefined && height_mm > limit ? [JSON.stringify([wall, station])] : [],
    ),
  );
  if (high.size === 0) return refuse(id, label, `no station stands above ${limit} mm`);
  const kept = outcomeReadings.filter(({ wall, station }) => high.has(JSON.stringify([wall, station])));
  return answerFromReadings(trial, kept, { id, label });
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
  const answer = answerFromReadings({ ...trial, protocol: { ...trial.protocol, compare } }, outcomeReadings, {
    id: 'sham-against-control',
    label: 'Sham less plain untreated walls',
  });
  if (answer.kind === 'not-estimated') return [answer];
  const quantity = 'sham walls’ change less plain untreated walls’ change';
  return [{ kind: 'estimated', estimate: { ...answer.estimate, quantity } }];
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
  const answer = answerFromReadings({ ...trial, walls, protocol: { ...trial.protocol, compare } }, outcomeReadings, {
    id: 'untreated-outside',
    label: 'Untreated walls outside the comparison less those in it',
  });
  if (answer.kind === 'not-estimated') return [answer];
  const quantity = 'change of untreated walls outside the comparison less that of those in it';
  return [{ kind: 'estimated', estimate: { ...answer.estimate, quantity } }];
}

/**
 * Treated less untreated walls before the treatment. With randomised walls, chance alone sets them apart.
 *
 * @example baselineDifference(trial, design).estimate.estimate // -0.1604
 */
export function baselineDifference({ protocol }: Trial, design: ComparisonDesign): Answer {
  const [id, label] = ['baseline-difference', 'A difference before the treatment'];
  if (isAfterAlone(design.walls)) return refuse(id, label, nothingReadBefore);
  return compareWalls(
    design.walls.flatMap((wall) => (wall.before === undefined ? [] : [{ ...wall, value: wall.before }])),
    {
      id,
      label,
      quantity: `${protocol.outcome.quantity} before`,
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
  const [id, label] = ['carry-over', 'Carry-over to untreated neighbours'];
  if (trial.walls.every(({ neighbours }) => neighbours === undefined))
    return refuse(id, label, 'the folder (`walls.csv`) does not say which walls are neighbours');
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
        ...{ id, label, unit: trial.protocol.outcome.unit, ...judged },
        quantity: 'change of untreated walls beside a treated one less that of the others',
        method: 'difference of means over untreated walls, interval by Welch’s t',
        assumptions: ['which untreated walls touch a treated one is unrelated to how they dry'],
        walls: { treated: 0, untreated: near.length + far.length },
      },
    };
  } catch (error) {
    return notEstimated(id, label, error, {
      'too-few': `${near.length} untreated walls touch a treated one and ${far.length} do not; it takes two of each`,
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
 * how a wall's visits before the treatment differ among themselves. A reason in plain words where it cannot be told.
 *
 * @example
 * const protocol = { ...trial.protocol, screened: { walls: 200, mean: 7, standardDeviation: 3, cutoff: 10 } };
 * expectedFall({ ...trial, protocol }, outcomeReadings) // { expected: 0.1631, reliability: 0.9644, visits: 1 }
 */
export function expectedFall(trial: Trial, outcomeReadings: readonly MoistureReading[]): ExpectedFall | string {
  const { screened, outcome } = trial.protocol;
  if (screened === undefined) return 'the plan does not say among which walls the wettest were looked for';
  const sorted = daySorter(trial);
  const within = varianceBetweenVisits(outcomeReadings.filter(({ wall, day }) => sorted(wall, day) === 'before'));
  if (within === undefined) return 'no wall was read on two days before the treatment';
  const { mean: centre, standardDeviation, cutoff } = screened;
  const reliability = Math.min(1, Math.max(0, 1 - within / standardDeviation ** 2));
  const selected = outcome.better === 'lower' ? 'above' : 'below';
  try {
    const { expected } = regressionToTheMean({ mean: centre, standardDeviation, reliability, cutoff, selected });
    return { expected, reliability, visits: 1 };
  } catch (error) {
    if (!isStatisticsError(error)) throw error;
    return 'no wall looked at could have passed the cutoff that the plan states';
  }
}

/** Pooled variance of a wall's means on different days. */
function varianceBetweenVisits(readings: readonly MoistureReading[]): number | undefined {
  const visits = new Map<string, Map<string, number[]>>();
  for (const { wall, day, value } of readings) {
    if (value.kind !== 'measured') continue;
    const days = visits.get(wall) ?? new Map<string, number[]>();
    days.set(day, [...(days.get(day) ?? []), value.value]);
    visits.set(wall, days);
  }
  const repeated = [...visits.values()].filter(({ size }) => size > 1).map((days) => [...days.values()].map(mean));
  if (repeated.length === 0) return undefined;
  const squares = repeated.reduce((sum, means) => sum + (means.length - 1) * variance(means), 0);
  return squares / repeated.reduce((sum, means) => sum + means.length - 1, 0);
}
