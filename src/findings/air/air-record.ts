import type { Side } from '../../analysis/index.js';
import { mean } from '../../statistics/index.js';
import { isInWindow, type Trial } from '../../trial/index.js';
import { type SurfaceOfWall, surfaceOfWalls } from './surface-of-walls.js';

/** The surfaces of an arm’s walls in a window: means over its walls. */
interface SurfaceOfArm extends Omit<SurfaceOfWall, 'wall' | 'source'> {
  readonly side: Side;
  readonly window: 'before' | 'after';
  readonly walls: number;
  /** Of those, the walls whose surface was measured at their own site. */
  readonly own: number;
}

/** What the record of the air says of hygrometers and of the walls’ surfaces. */
export interface AirRecord {
  /** Readings that state a humidity. */
  readonly humidityReadings: number;
  /** Of those, readings above 100 %, which count as 100 %. */
  readonly aboveSaturation: number;
  /** The highest that a hygrometer showed, in percent; absent where none showed anything. */
  readonly highestShown_pct?: number;
  /** Treated arms first, each before and after. */
  readonly surfaces: readonly SurfaceOfArm[];
}

/** Undefined without readings of the air. */
export function airRecord(trial: Trial, sides: ReadonlyMap<string, Side>): AirRecord | undefined {
  if (trial.climate.length === 0) return undefined;
  const shown = trial.climate.flatMap(({ relative_humidity_pct }) => relative_humidity_pct ?? []);
  return {
    humidityReadings: shown.length,
    aboveSaturation: shown.filter((humidity_pct) => humidity_pct > 100).length,
    ...(shown.length === 0 ? {} : { highestShown_pct: shown.reduce((most, one) => Math.max(most, one)) }),
    surfaces: surfacesOfArms(trial, sides),
  };
}

function surfacesOfArms(trial: Trial, sides: ReadonlyMap<string, Side>): readonly SurfaceOfArm[] {
  const { windows, arms } = trial.protocol;
  if (windows === undefined) return [];
  const [before, after] = (['before', 'after'] as const).map((window) =>
    surfaceOfWalls(trial, (day) => isInWindow(day, windows[window])).filter(({ wall }) => sides.has(wall)),
  );
  return (['treated', 'untreated'] as const).flatMap((side) =>
    arms.flatMap(({ arm }) =>
      (
        [
          ['before', before],
          ['after', after],
        ] as const
      ).flatMap(([window, walls = []]): SurfaceOfArm[] => {
        const own = walls.filter((wall) => wall.arm === arm && sides.get(wall.wall) === side);
        return own.length === 0 ? [] : [{ arm, side, window, ...meansOf(own) }];
      }),
    ),
  );
}

function meansOf(walls: readonly SurfaceOfWall[]): Omit<SurfaceOfArm, 'arm' | 'side' | 'window'> {
  return {
    walls: walls.length,
    own: walls.filter(({ source }) => source === 'own').length,
    readings: walls.reduce((sum, { readings }) => sum + readings, 0),
    surface_c: mean(walls.map(({ surface_c }) => surface_c)),
    evaporation_pa: mean(walls.map(({ evaporation_pa }) => evaporation_pa)),
    condensingShare: mean(walls.map(({ condensingShare }) => condensingShare)),
  };
}
