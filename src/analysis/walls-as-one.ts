import { mean } from '../statistics/index.js';
import type { PlacedWall, UnitKind, WallChange } from './wall-change.js';

/** The names of the walls that a record of the comparison stands for: its own, or those of its unit. */
export function namesOfWalls({ wall, unit }: PlacedWall): readonly string[] {
  return unit?.walls ?? [wall];
}

/** Each wall's name with the unit that it belongs to. */
export function unitsByWall<W extends PlacedWall>(units: readonly W[]): ReadonlyMap<string, W> {
  return new Map(units.flatMap((unit) => namesOfWalls(unit).map((wall): [string, W] => [wall, unit])));
}

/** The arms of walls of one side, as one name. */
export function armsOf(walls: readonly PlacedWall[]): string {
  return [...new Set(walls.map(({ arm }) => arm))].join(' and ');
}

/**
 * Several walls of one side as one: the means over them, each wall counting alike.
 *
 * @example
 * const treated = design.walls.filter(({ side }) => side === 'treated');
 * wallsAsOne(treated, { name: 'all treated walls', block: '', kind: 'wall' }).change // -4.659
 */
export function wallsAsOne(
  walls: readonly [WallChange, ...WallChange[]],
  { name, block, kind }: { readonly name: string; readonly block: string; readonly kind: UnitKind },
): WallChange {
  const befores = walls.flatMap(({ before }) => before ?? []);
  return {
    wall: name,
    arm: armsOf(walls),
    side: walls[0].side,
    block,
    ...(befores.length === walls.length ? { before: mean(befores) } : {}),
    after: mean(walls.map(({ after }) => after)),
    change: mean(walls.map(({ change }) => change)),
    stations: walls.reduce((sum, { stations }) => sum + stations, 0),
    places: walls.some(({ places }) => places === 'renamed') ? 'renamed' : 'same',
    unit: { kind, walls: walls.flatMap(namesOfWalls) },
  };
}
