import { isoDay } from '../../plain/days.js';
import { valuesBy } from '../../plain/group-by.js';
import { mean } from '../../statistics/index.js';
import { type Core, isAmount, type Trial, unitsPerPercentByMass, windowSorter } from '../../trial/index.js';
import type { PlacedWall, Side } from '../wall-change.js';

export interface WallsTooDry {
  /** By side: walls, and those that could not lose the margin. */
  readonly bySide: Readonly<Record<Side, { readonly walls: number; readonly tooDry: number }>>;
  /** Of all walls of the comparison. */
  readonly share: number;
  /** Names of the walls that could not lose it. */
  readonly tooDry: readonly string[];
  /** Walls whose floor is known from cores weighed at a stated humidity; of the others it is taken as 0. */
  readonly withFloor: number;
  /** Mean before value less floor over all walls, in the outcome's unit: what there was to lose. */
  readonly room: number;
  readonly margin: number;
}

/**
 * Walls that hold too little to lose the margin: their before value less what they hold in the air of the conditioning stands below
 * it. Such walls make "no worthwhile effect" true of themselves and say nothing of wetter ones.
 *
 * @param walls of the comparison with their before values
 * @returns nothing without a margin, without walls that were read before, or where the outcome is no amount that is to become less
 * @example wallsTooDry(trial, design.walls).share // 0
 */
export function wallsTooDry(
  trial: Trial,
  walls: readonly (PlacedWall & { readonly before?: number })[],
): WallsTooDry | undefined {
  const { margin, outcome } = trial.protocol;
  if (margin === undefined || walls.length === 0 || outcome.better !== 'lower' || !isAmount(trial.protocol))
    return undefined;
  const floors = floorsOfWalls(trial);
  const rooms = walls.flatMap((wall) =>
    wall.before === undefined ? [] : [{ ...wall, room: wall.before - (floors.get(wall.wall) ?? 0) }],
  );
  if (rooms.length === 0) return undefined;
  const dry = rooms.filter(({ room }) => room < margin);
  const on = (side: Side) => ({
    walls: walls.filter((wall) => wall.side === side).length,
    tooDry: dry.filter((wall) => wall.side === side).length,
  });
  return {
    bySide: { treated: on('treated'), untreated: on('untreated') },
    share: dry.length / walls.length,
    tooDry: dry.map(({ wall }) => wall),
    withFloor: walls.filter(({ wall }) => floors.has(wall)).length,
    room: mean(rooms.map(({ room }) => room)),
    margin,
  };
}

/** Mean hygroscopic part of each wall's before cores, in the outcome's unit, where the outcome is the balance's. */
function floorsOfWalls(trial: Trial): ReadonlyMap<string, number> {
  const { instruments, outcome } = trial.protocol;
  const isWeighed = instruments.find(({ instrument }) => instrument === outcome.instrument)?.kind === 'gravimetric';
  const scale = unitsPerPercentByMass(outcome.unit);
  if (!isWeighed || scale === undefined) return new Map();
  const windowOf = windowSorter(trial);
  const heldBefore = ({ wall, date, container_g, dry_g, humid_g }: Core): number | undefined => {
    if (dry_g === undefined || humid_g === undefined || windowOf(wall, isoDay(date)) !== 'before') return undefined;
    return (100 * scale * (humid_g - dry_g)) / (dry_g - container_g);
  };
  const byWall = valuesBy(trial.cores, ({ wall }) => wall, heldBefore);
  return new Map([...byWall].map(([wall, held]) => [wall, mean(held)]));
}
