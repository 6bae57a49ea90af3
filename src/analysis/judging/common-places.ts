import { distinctBy } from '../../plain/group-by.js';
import type { Trial } from '../../trial/index.js';
import type { Answer } from '../answer.js';
import { type ComparisonDesign, comparisonDesign } from '../comparison-design.js';
import { refused } from '../not-estimated.js';
import type { StationChange } from '../wall-change.js';
import { wallChanges } from '../wall-changes.js';
import { answerFromDesign } from './answer-from-readings.js';
import { unevenShare } from './losses-by-place.js';

/**
 * The primary answer on the heights and depths that were kept alike on both sides: in pairs, those with a change on both walls of
 * the pair; else those where both sides have a change and the shares of stations lost since the before window differ by no more than
 * 0.1 (our convention). Stations lost at one height of one arm then move nothing but the number of stations.
 *
 * @param stations all of them, those without an after value too
 * @example commonPlacesAnswer(trial, changes.stations, design).estimate.estimate // -4.144
 */
export function commonPlacesAnswer(trial: Trial, stations: readonly StationChange[], design: ComparisonDesign): Answer {
  const named = { id: 'common-places' };
  const walls = new Set(design.walls.map(({ wall }) => wall));
  const own = stations.filter(({ wall }) => walls.has(wall));
  if (own.every(({ height_mm, depth_mm }) => height_mm === undefined && depth_mm === undefined))
    return refused(named, { code: 'no-places' });
  const kept = design.kind === 'pairs' ? commonInPairs(own, design) : commonToSides(own, design);
  if (kept.length === 0) return refused(named, { code: 'no-common-place' });
  return answerFromDesign(trial, comparisonDesign(wallChanges(trial, kept).walls).design, named);
}

const placeOf = ({ height_mm, depth_mm }: StationChange) => JSON.stringify([height_mm, depth_mm]);
const hasChange = ({ before, after }: StationChange) => before !== undefined && after !== undefined;

function commonInPairs(
  stations: readonly StationChange[],
  design: Extract<ComparisonDesign, { kind: 'pairs' }>,
): readonly StationChange[] {
  const places = distinctBy(stations.filter(hasChange), ({ wall }) => wall, placeOf);
  const partner = new Map(
    design.pairs.flatMap(({ treated, untreated }) => [
      [treated.wall, untreated.wall] as const,
      [untreated.wall, treated.wall] as const,
    ]),
  );
  return stations.filter((station) => places.get(partner.get(station.wall) ?? '')?.has(placeOf(station)));
}

function commonToSides(stations: readonly StationChange[], design: ComparisonDesign): readonly StationChange[] {
  const sides = new Map(design.walls.map(({ wall, side }) => [wall, side]));
  const counts = new Map<string, Record<'treated' | 'untreated', { before: number; kept: number }>>();
  for (const station of stations) {
    const side = sides.get(station.wall);
    if (side === undefined || station.before === undefined) continue;
    const fresh = { treated: { before: 0, kept: 0 }, untreated: { before: 0, kept: 0 } };
    const known = counts.get(placeOf(station)) ?? fresh;
    known[side].before += 1;
    if (station.after !== undefined) known[side].kept += 1;
    counts.set(placeOf(station), known);
  }
  const common = new Set(
    [...counts].flatMap(([place, { treated, untreated }]) => {
      if (treated.kept === 0 || untreated.kept === 0) return [];
      const apart = Math.abs(treated.kept / treated.before - untreated.kept / untreated.before);
      return apart <= unevenShare ? [place] : [];
    }),
  );
  return stations.filter((station) => common.has(placeOf(station)));
}
