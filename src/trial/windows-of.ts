import { isInWindow } from './is-in-window.js';
import type { Windows } from './protocol.js';
import type { Trial } from './trial.js';

/**
 * The before and after window of a wall: its own where `walls.csv` states them, as for walls that were treated one after the
 * other, else the plan's.
 *
 * @example windowsOf(trial, 'W01')?.before // { from: '2024-03-01', to: '2024-05-31' }
 */
export function windowsOf({ protocol, walls }: Pick<Trial, 'protocol' | 'walls'>, wall: string): Windows | undefined {
  return walls.find((one) => one.wall === wall)?.windows ?? protocol.windows;
}

/**
 * Whether the plan or a wall states a before and an after window.
 *
 * @example hasWindows(trial) // true
 */
export function hasWindows({ protocol, walls }: Pick<Trial, 'protocol' | 'walls'>): boolean {
  return protocol.windows !== undefined || walls.some(({ windows }) => windows !== undefined);
}

/**
 * Sorts days by the windows of their walls alone, whatever had been done to a wall by then: for what was read, weighed or lost
 * while a window was open.
 *
 * @example windowSorter(trial)('W01', '2024-05-31') // 'before'
 */
export function windowSorter({
  protocol,
  walls,
}: Pick<Trial, 'protocol' | 'walls'>): (wall: string, day: string) => keyof Windows | undefined {
  const byWall = new Map(walls.map(({ wall, windows }) => [wall, windows]));
  return (wall, day) => {
    const windows = byWall.get(wall) ?? protocol.windows;
    if (windows === undefined) return undefined;
    if (isInWindow(day, windows.before)) return 'before';
    return isInWindow(day, windows.after) ? 'after' : undefined;
  };
}

/**
 * Where a day falls for a wall. A day of the before window on or after the wall's own treatment is `treated-by-then`, a day of
 * the after window before it `not-yet-treated`: neither is a before or an after reading.
 */
export type DayOfWall = 'before' | 'after' | 'treated-by-then' | 'not-yet-treated' | 'outside' | 'no-windows';

/**
 * Sorts the days of readings by the windows and the treatment of their walls: the one rule by which a reading is a before or an
 * after reading.
 *
 * @example daySorter(trial)('W01', '2024-05-31') // 'before'
 */
export function daySorter({ protocol, walls }: Pick<Trial, 'protocol' | 'walls'>): DaySorter {
  const kept = sorters.get(walls);
  if (kept !== undefined && kept.windows === protocol.windows) return kept.sorter;
  const sorter = newSorter(protocol.windows, walls);
  sorters.set(walls, { windows: protocol.windows, sorter });
  return sorter;
}

type DaySorter = (wall: string, day: string) => DayOfWall;

/** One trial is sorted some sixty times for an opinion, nearly always by the same windows. */
const sorters = new WeakMap<Trial['walls'], { readonly windows: Windows | undefined; readonly sorter: DaySorter }>();

function newSorter(ofPlan: Windows | undefined, walls: Trial['walls']): DaySorter {
  const byWall = new Map(walls.map((wall) => [wall.wall, wall]));
  const sortedOf = (name: string, day: string): DayOfWall => {
    const wall = byWall.get(name);
    const windows = wall?.windows ?? ofPlan;
    if (windows === undefined) return 'no-windows';
    const isTreated = wall?.treatedOn === undefined ? undefined : day >= wall.treatedOn;
    if (isInWindow(day, windows.before)) return isTreated === true ? 'treated-by-then' : 'before';
    if (isInWindow(day, windows.after)) return isTreated === false ? 'not-yet-treated' : 'after';
    return 'outside';
  };
  // Hundreds of readings share a wall and a day, and every choice of analysis asks again.
  const known = new Map<string, Map<string, DayOfWall>>();
  return (name, day) => {
    const own = known.get(name);
    const sorted = own?.get(day) ?? sortedOf(name, day);
    if (own === undefined) known.set(name, new Map([[day, sorted]]));
    else own.set(day, sorted);
    return sorted;
  };
}
