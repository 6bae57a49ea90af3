import type { MoistureReading } from '../../moisture/index.js';
import { daysBetween } from '../../plain/days.js';
import { distinctBy } from '../../plain/group-by.js';
import { present } from '../../plain/present.js';
import { mean } from '../../statistics/index.js';
import { daySorter, type Trial } from '../../trial/index.js';
import type { Side } from '../wall-change.js';

export interface DaysByArm {
  /** Visit days on which walls of both sides were read, over all visit days of the window. */
  readonly sharedDays: number;
  readonly days: number;
  /** Mean day of the treated walls less that of the untreated, walls as the units. */
  readonly meanDifference_days: number;
}

/**
 * How far the sides of the comparison were read on the same days, window by window, each wall by its own windows. What is not
 * shared cannot be distinguished from the treatment.
 *
 * @param used the readings of the comparison
 * @param sides of the walls, by name
 * @returns nothing of a window in which a side was not read
 * @example
 * const sides = new Map(design.walls.map(({ wall, side }) => [wall, side]));
 * daysByArm(trial, changes.used, sides).after // { sharedDays: 3, days: 3, meanDifference_days: 0 }
 */
export function daysByArm(
  trial: Trial,
  used: readonly MoistureReading[],
  sides: ReadonlyMap<string, Side>,
): Readonly<Partial<Record<'before' | 'after', DaysByArm>>> {
  const sorted = daySorter(trial);
  const inWindow = (window: 'before' | 'after') => used.filter(({ wall, day }) => sorted(wall, day) === window);
  const [before, after] = [daysInWindow(inWindow('before'), sides), daysInWindow(inWindow('after'), sides)];
  return { ...present({ before, after }) };
}

function daysInWindow(readings: readonly MoistureReading[], sides: ReadonlyMap<string, Side>): DaysByArm | undefined {
  const daysOn = (side: Side) => {
    const own = readings.filter(({ wall }) => sides.get(wall) === side);
    return [
      ...distinctBy(
        own,
        ({ wall }) => wall,
        ({ day }) => day,
      ).values(),
    ];
  };
  const [treated, untreated] = [daysOn('treated'), daysOn('untreated')];
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
