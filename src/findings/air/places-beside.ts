import type { Wall } from '../../trial/index.js';

/**
 * Whose record stands for a wall: that of the place that is its site; else those of places that are no wall’s site; else, where there are
 * none, those beside other walls.
 */
export type RecordSource = 'own' | 'general' | 'other-walls';

export interface PlacesBeside {
  readonly source: RecordSource;
  readonly places: readonly string[];
}

/**
 * Which of the places that recorded something stand for each wall; undefined where none recorded it. A wall’s own place is never mixed
 * with others, also on days that it lacks: a mean whose places change looks like a change of the air.
 */
export function placesBeside(
  walls: readonly Wall[],
  recorded: readonly string[],
): (wall: string) => PlacesBeside | undefined {
  const siteOf = new Map(walls.map(({ wall, site }) => [wall, site]));
  const sites = new Set(siteOf.values());
  const general = recorded.filter((place) => !sites.has(place));
  const others: PlacesBeside | undefined =
    general.length > 0
      ? { source: 'general', places: general }
      : recorded.length > 0
        ? { source: 'other-walls', places: recorded }
        : undefined;
  return (wall) => {
    const site = siteOf.get(wall);
    return site !== undefined && recorded.includes(site) ? { source: 'own', places: [site] } : others;
  };
}
