import { type AirAtTime, evaporationPotential } from '../../moisture/index.js';
import { isoDay } from '../../plain/days.js';
import { valuesBy } from '../../plain/group-by.js';
import { mean } from '../../statistics/index.js';
import type { Trial } from '../../trial/index.js';
import { airInOrder } from './air-in-order.js';
import { placesBeside } from './places-beside.js';
import { usableAir } from './usable-air.js';

/** What the air did at the surface of a wall whose temperature was measured. */
export interface SurfaceOfWall {
  readonly wall: string;
  readonly arm: string;
  /** Whether it was measured at the wall’s own site, or at a place that is no wall’s site. */
  readonly source: 'own' | 'general';
  /** With a surface temperature and the air’s humidity. */
  readonly readings: number;
  readonly surface_c: number;
  /**
   * Mean over time of the vapour pressure at the wall’s surface when wet, less the air’s, in pascal. Negative where the wall took up water
   * from the air on the whole.
   */
  readonly evaporation_pa: number;
  /** Share of the time for which the surface was below the dew point, 0 to 1. */
  readonly condensingShare: number;
}

type SurfaceAtPlace = Omit<SurfaceOfWall, 'wall' | 'arm' | 'source'>;

/**
 * By wall, how far the air could dry its surface, and how long water condensed on it; only walls for which `surface_c` and the air were
 * recorded together at least twice. Readings without a surface temperature do not count: a mean over both kinds would move with their share.
 * The surface of one wall does not stand for another.
 *
 * @param isCounted the days that count; all unless given
 */
export function surfaceOfWalls(
  { climate, walls }: Pick<Trial, 'climate' | 'walls'>,
  isCounted: (day: string) => boolean = () => true,
): readonly SurfaceOfWall[] {
  const byPlace = valuesBy(
    climate,
    ({ place }) => place,
    (reading) => {
      const air = usableAir(reading);
      return air?.surface_c === undefined || !isCounted(isoDay(reading.time)) ? undefined : air;
    },
  );
  const places = new Map(
    [...byPlace].flatMap(([place, readings]) => {
      const surface = surfaceAtPlace(airInOrder(readings));
      return surface === undefined ? [] : [[place, surface] as const];
    }),
  );
  const beside = placesBeside(walls, [...places.keys()]);
  return walls.flatMap(({ wall, arm }): SurfaceOfWall[] => {
    const found = beside(wall);
    if (found === undefined || found.source === 'other-walls') return [];
    return [{ wall, arm, source: found.source, ...meansOf(found.places.flatMap((place) => places.get(place) ?? [])) }];
  });
}

function surfaceAtPlace(readings: readonly AirAtTime[]): SurfaceAtPlace | undefined {
  if (readings.length < 2) return undefined;
  const { mean_pa, condensingShare } = evaporationPotential(readings);
  return {
    readings: readings.length,
    surface_c: mean(readings.flatMap(({ surface_c }) => surface_c ?? [])),
    evaporation_pa: mean_pa,
    condensingShare,
  };
}

/** Each place counts once, however often it was read. */
function meansOf(places: readonly SurfaceAtPlace[]): SurfaceAtPlace {
  return {
    readings: places.reduce((sum, { readings }) => sum + readings, 0),
    surface_c: mean(places.map(({ surface_c }) => surface_c)),
    evaporation_pa: mean(places.map(({ evaporation_pa }) => evaporation_pa)),
    condensingShare: mean(places.map(({ condensingShare }) => condensingShare)),
  };
}
