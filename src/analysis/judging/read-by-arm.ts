import type { MoistureReading } from '../../moisture/index.js';
import { mean } from '../../statistics/index.js';
import { isInWindow, type Trial } from '../../trial/index.js';
import type { Side } from '../wall-change.js';
import { daysBetween } from './days.js';

type WindowName = 'before' | 'after';

/** How alike the sides' readings are spread over readers, batches or temperatures. */
export interface SharedBetweenArms {
  /**
   * Sum over the names of the smaller of the two sides' shares: 1 where both sides have the same mixture, 0 where they have
   * nothing in common.
   */
  readonly overlap: number;
  /** Distinct names of each side, in order. */
  readonly names: Readonly<Record<Side, readonly string[]>>;
  /** Readings of both sides that name one. */
  readonly recorded: number;
  readonly readings: number;
}

export interface DaysByArm {
  /** Visit days on which walls of both sides were read, over all visit days of the window. */
  readonly sharedDays: number;
  readonly days: number;
  /** Mean day of the treated walls less that of the untreated, walls as the units. */
  readonly meanDifference_days: number;
}

export interface ReadByArm {
  /** By window; absent where a side has no reading that names one. */
  readonly reader: Readonly<Partial<Record<WindowName, SharedBetweenArms>>>;
  readonly batch: Readonly<Partial<Record<WindowName, SharedBetweenArms>>>;
  readonly oven: Readonly<Partial<Record<WindowName, SharedBetweenArms>>>;
  /** Absent where a side was not read in the window. */
  readonly days: Readonly<Partial<Record<WindowName, DaysByArm>>>;
}

/**
 * How far readers, oven batches, oven temperatures and visit days are shared by the sides of the comparison, window by window. What
 * is not shared cannot be distinguished from the treatment.
 *
 * @param used the readings of the comparison
 * @param sides of the walls, by name
 * @example
 * const sides = new Map(design.walls.map(({ wall, side }) => [wall, side]));
 * readByArm(trial, changes.used, sides).days.after // { sharedDays: 3, days: 3, meanDifference_days: 0 }
 */
export function readByArm(trial: Trial, used: readonly MoistureReading[], sides: ReadonlyMap<string, Side>): ReadByArm {
  const { windows } = trial.protocol;
  if (windows === undefined) return { reader: {}, batch: {}, oven: {}, days: {} };
  const cores = new Map(trial.cores.map(({ origin, batch }) => [JSON.stringify([origin.file, origin.row]), batch]));
  const batchOf = ({ origin }: MoistureReading) => cores.get(JSON.stringify([origin.file, origin.row]));
  const ovens = new Map((trial.batches ?? []).map(({ batch, oven_c }) => [batch, oven_c?.toString()]));
  const ovenOf = (reading: MoistureReading) => ovens.get(batchOf(reading) ?? '');
  const inWindow = (window: WindowName) => used.filter(({ day }) => isInWindow(day, windows[window]));
  const each = <Found>(find: (readings: readonly MoistureReading[]) => Found | undefined) => {
    const [before, after] = [find(inWindow('before')), find(inWindow('after'))];
    return { ...(before === undefined ? {} : { before }), ...(after === undefined ? {} : { after }) };
  };
  return {
    reader: each((readings) => shared(readings, sides, ({ reader }) => reader)),
    batch: each((readings) => shared(readings, sides, batchOf)),
    oven: each((readings) => shared(readings, sides, ovenOf)),
    days: each((readings) => daysByArm(readings, sides)),
  };
}

function shared(
  readings: readonly MoistureReading[],
  sides: ReadonlyMap<string, Side>,
  nameOf: (reading: MoistureReading) => string | undefined,
): SharedBetweenArms | undefined {
  const names = (side: Side) =>
    readings.filter(({ wall }) => sides.get(wall) === side).flatMap((reading) => nameOf(reading) ?? []);
  const [treated, untreated] = [names('treated'), names('untreated')];
  if (treated.length === 0 || untreated.length === 0) return undefined;
  const shareOf = (name: string, list: readonly string[]) => list.filter((one) => one === name).length / list.length;
  const distinct = { treated: [...new Set(treated)].sort(), untreated: [...new Set(untreated)].sort() };
  return {
    overlap: distinct.treated.reduce(
      (sum, name) => sum + Math.min(shareOf(name, treated), shareOf(name, untreated)),
      0,
    ),
    names: distinct,
    recorded: treated.length + untreated.length,
    readings: readings.filter(({ wall }) => sides.has(wall)).length,
  };
}

function daysByArm(readings: readonly MoistureReading[], sides: ReadonlyMap<string, Side>): DaysByArm | undefined {
  const days = { treated: new Map<string, Set<string>>(), untreated: new Map<string, Set<string>>() };
  for (const { wall, day } of readings) {
    const side = sides.get(wall);
    if (side !== undefined) days[side].set(wall, (days[side].get(wall) ?? new Set()).add(day));
  }
  const [treated, untreated] = [[...days.treated.values()], [...days.untreated.values()]];
  const first = [...treated, ...untreated].flatMap((own) => [...own]).sort()[0];
  if (treated.length === 0 || untreated.length === 0 || first === undefined) return undefined;
  const meanDay = (walls: readonly ReadonlySet<string>[]) =>
    mean(walls.map((own) => mean([...own].map((day) => daysBetween(first, day)))));
  const [ofTreated, ofUntreated] = [
    new Set(treated.flatMap((own) => [...own])),
    new Set(untreated.flatMap((own) => [...own])),
  ];
  return {
    sharedDays: [...ofTreated].filter((day) => ofUntreated.has(day)).length,
    days: new Set([...ofTreated, ...ofUntreated]).size,
    meanDifference_days: meanDay(treated) - meanDay(untreated),
  };
}
