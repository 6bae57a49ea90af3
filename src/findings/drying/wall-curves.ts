import type { Side } from '../../analysis/index.js';
import { isDryingError, meanCurve, type StationReading } from '../../drying/index.js';
import type { MoistureReading } from '../../moisture/index.js';
import { daysBetween } from '../../plain/days.js';
import { groupBy } from '../../plain/group-by.js';
import type { Trial } from '../../trial/index.js';
import type { WallCurve, WallWithoutCurve } from './wall-curve.js';

/** What drying asks of a reading, and no more: it is made of every one of them, for every choice that is tried. */
export interface NumberRead {
  readonly wall: string;
  readonly station: string;
  readonly day: string;
  /** In the outcome's unit. */
  readonly moisture: number;
}

/** Readings of the outcome that are numbers, of the walls that are compared. */
export function outcomeReadings(
  trial: Trial,
  readings: readonly MoistureReading[],
  sides: ReadonlyMap<string, Side>,
): readonly NumberRead[] {
  const { outcome } = trial.protocol;
  const read: NumberRead[] = [];
  for (const { instrument, wall, station, day, value } of readings) {
    if (instrument !== outcome.instrument || value.kind !== 'measured' || !sides.has(wall)) continue;
    read.push({ wall, station, day, moisture: value.value });
  }
  return read;
}

/** The curve of every wall, its time counted from its own start; walls whose stations share no visit are named. */
export function curvesOfWalls(
  trial: Trial,
  readings: readonly NumberRead[],
  sides: ReadonlyMap<string, Side>,
  startOf: (wall: string) => string,
): { readonly curves: readonly WallCurve[]; readonly leftOut: readonly WallWithoutCurve[] } {
  const byWall = groupBy(readings, ({ wall }) => wall);
  const curves: WallCurve[] = [];
  const leftOut: WallWithoutCurve[] = [];
  for (const { wall, arm, block = '' } of trial.walls) {
    const side = sides.get(wall);
    const own = byWall.get(wall);
    if (side === undefined || own === undefined) continue;
    const start = startOf(wall);
    const days = [...new Set(own.map(({ day }) => day))].sort();
    const timeOf = new Map(days.map((day) => [day, daysBetween(start, day)]));
    const dayAt = new Map([...timeOf].map(([day, time]) => [time, day]));
    const stations = own.flatMap(({ station, day, moisture }): StationReading[] => {
      const time_d = timeOf.get(day);
      return time_d === undefined ? [] : [{ station, time_d, moisture }];
    });
    try {
      const { times_d, moisture } = meanCurve(stations);
      curves.push({ wall, arm, side, block, days: times_d.map((time) => dayAt.get(time) ?? start), times_d, moisture });
    } catch (error) {
      if (!isDryingError(error)) throw error;
      leftOut.push({ wall, reason: { code: 'no-shared-visit' } });
    }
  }
  return { curves, leftOut };
}
