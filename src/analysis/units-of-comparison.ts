import { type Group, groupBy } from '../plain/group-by.js';
import type { Trial, Wall } from '../trial/index.js';
import { comparisonDesign, type DesignOfComparison } from './comparison-design.js';
import { comparisonSides } from './comparison-sides.js';
import type { PlacedWall, Side, StationChange, UnitKind, WallChange } from './wall-change.js';
import { wallChanges } from './wall-changes.js';
import { armsOf, unitsByWall, wallsAsOne } from './walls-as-one.js';

/** What the comparison counts, and which walls stand behind each. */
export interface UnitsOfComparison {
  readonly kind: UnitKind;
  /** The walls themselves where `kind` is `wall`, else their means over each unit. */
  readonly units: readonly WallChange[];
  /** By the name of the unit, the walls with a change that belong to it. */
  readonly members: ReadonlyMap<string, readonly string[]>;
  /** Every unit of the comparison with all its walls, whether or not it has a change. */
  readonly allotted: readonly PlacedWall[];
  /** Whether the plan states the unit; else it was seen from how the sides lie in sites, blocks and neighbours. */
  readonly isStated: boolean;
}

/**
 * Between step 2 and 3 of the primary analysis: the units are what was independently allocated.
 *
 * As `allocation.unit` says. Where it does not: sites, where every site with several walls of the comparison lies on one side of it;
 * blocks, where no block holds both sides and blocks hold several walls; stretches, where walls of one site, block and side are
 * linked as neighbours, for strips of one wall are not walls; else walls. What was allotted decides, whether or not it has a
 * change. A unit's value is the mean over its walls, its block the one that its walls have in common.
 *
 * @example unitsOfComparison(trial, wallChanges(trial, changes.stations).walls).kind // 'wall'
 */
export function unitsOfComparison(trial: Trial, walls: readonly WallChange[]): UnitsOfComparison {
  return unitsOfWalls(trial)(walls);
}

/** The same for walls whose changes are made again and again: what was allocated together is looked up once. */
export function unitsOfWalls(trial: Trial): (walls: readonly WallChange[]) => UnitsOfComparison {
  const units = unitsOfTrial(trial);
  return (walls) => countedUnits(units, walls);
}

function countedUnits({ kind, isStated, allotted }: UnitsOfTrial, walls: readonly WallChange[]): UnitsOfComparison {
  if (kind === 'wall')
    return { kind, isStated, allotted, units: walls, members: new Map(walls.map(({ wall }) => [wall, [wall]])) };
  const unitOf = unitsByWall(allotted);
  const groups = groupBy(walls, ({ wall }) => unitOf.get(wall));
  const units = [...groups].map(([unit, own]) => wallsAsOne(own, { name: unit.wall, block: unit.block, kind }));
  return {
    kind,
    isStated,
    allotted,
    units,
    members: new Map(units.map(({ wall, unit }) => [wall, unit?.walls ?? []])),
  };
}

/**
 * From stations to the design of the comparison: their walls, the units that these make, and how the units are arranged.
 *
 * @example designOfStations(trial, changes.stations).design.kind // 'pairs'
 */
export function designOfStations(trial: Trial, stations: readonly StationChange[]): DesignOfComparison {
  return comparisonDesign(unitsOfComparison(trial, wallChanges(trial, stations).walls).units);
}

type UnitsOfTrial = Pick<UnitsOfComparison, 'kind' | 'isStated' | 'allotted'>;

interface AllottedWall extends PlacedWall {
  readonly site: string;
  readonly neighbours: readonly string[];
}

function unitsOfTrial({ protocol, walls }: Trial): UnitsOfTrial {
  const sides = comparisonSides(protocol);
  const all = walls.flatMap((wall) => allottedWall(wall, sides.get(wall.arm)));
  const stated = protocol.allocation.unit;
  const isStated = stated !== undefined;
  const single = {
    kind: 'wall' as const,
    isStated,
    allotted: all.map(({ wall, arm, side, block }) => ({ wall, arm, side, block })),
  };
  if (stated === 'wall' || !holdsBoth(all)) return single;
  const of = (kind: UnitKind, groups: Groups, nameOf: NameOf, blockOfUnit: BlockOf): UnitsOfTrial => {
    return { kind, isStated, allotted: placed(kind, groups, nameOf, blockOfUnit) };
  };
  const sites = groupsBy(all, ({ site, side }) => (site === '' ? undefined : [site, side]));
  if (stated === 'site') return of('site', sites, siteName, blocksAmong(sites));
  // Seen from how the sides lie: whole sites, and blocks that hold nothing but several of these, or several walls.
  const areSites = liesOnOneSide(groupsBy(all, ({ site }) => (site === '' ? undefined : [site])));
  const candidates: Groups = areSites ? sites : all.map((wall) => [wall]);
  const blocked = candidates.map(blockOf).filter((block) => block !== '');
  if (new Set(blocked).size < blocked.length && !groupsBy(all, ({ block }) => [block]).some(holdsBoth)) {
    const blocks = groupsBy(all, ({ block }) => (block === '' ? undefined : [block]));
    return of('block', blocks, blockName, () => '');
  }
  if (areSites) return of('site', sites, siteName, blocksAmong(sites));
  const stretches = linkedWalls(all);
  return stretches.every(({ length }) => length === 1) ? single : of('strip', stretches, stretchName, blockOf);
}

type Walls = readonly [AllottedWall, ...AllottedWall[]];
type Groups = readonly Walls[];
type NameOf = (first: AllottedWall, walls: Walls) => string;
type BlockOf = (walls: Walls) => string;

function allottedWall(
  { wall, arm, site = '', block = '', neighbours = [] }: Wall,
  side: Side | undefined,
): readonly AllottedWall[] {
  return side === undefined ? [] : [{ wall, arm, site, block, side, neighbours }];
}

function holdsBoth(walls: readonly AllottedWall[]): boolean {
  return new Set(walls.map(({ side }) => side)).size === 2;
}

/** Groups of walls with the same key; a wall without a key is a group by itself. */
function groupsBy(
  walls: readonly AllottedWall[],
  keyOf: (wall: AllottedWall) => readonly string[] | undefined,
): Groups {
  return [...groupBy(walls, (wall) => JSON.stringify(keyOf(wall) ?? { wall: wall.wall })).values()];
}

/** Whether some groups hold several walls and none of these both sides. */
function liesOnOneSide(groups: Groups): boolean {
  const several = groups.filter(({ length }) => length > 1);
  return several.length > 0 && !several.some(holdsBoth);
}

function blockOf(walls: Walls): string {
  const blocks = new Set(walls.map(({ block }) => block));
  return blocks.size === 1 ? walls[0].block : '';
}

/** Blocks that each hold one site are other names of the sites, and nothing can be compared inside them. */
function blocksAmong(sites: Groups): BlockOf {
  const blocks = sites.map(blockOf).filter((block) => block !== '');
  return new Set(blocks).size === blocks.length ? () => '' : blockOf;
}

function placed(kind: UnitKind, groups: Groups, nameOf: NameOf, blockOfUnit: BlockOf): readonly PlacedWall[] {
  const named = groups.map((group) => ({ group, own: nameOf(group[0], group) }));
  const names = named.map(({ own }) => own);
  return named.map(({ group, own }): PlacedWall => {
    const walls = group.map(({ wall }) => wall);
    // A wall without a site may bear the name of another's site; both sides of a site have the same one.
    const isTaken = names.indexOf(own) !== names.lastIndexOf(own);
    return {
      wall: isTaken ? `${own} (${walls.toSorted().join(', ')})` : own,
      arm: armsOf(group),
      side: group[0].side,
      block: blockOfUnit(group),
      unit: { kind, walls },
    };
  });
}

function blockName({ block, wall }: AllottedWall): string {
  return block || wall;
}

function siteName({ site, wall }: AllottedWall): string {
  return site || wall;
}

function stretchName(_first: AllottedWall, walls: Walls): string {
  const names = walls.map(({ wall }) => wall).toSorted();
  return names.length <= 3 ? names.join(' + ') : `${names[0]} to ${names.at(-1)} (${names.length} strips)`;
}

/** Walls of one site, block and side that are neighbours, or neighbours of such neighbours. */
function linkedWalls(walls: readonly AllottedWall[]): Groups {
  const groupOf = new Map<string, Group<AllottedWall>>(walls.map((wall) => [wall.wall, [wall]]));
  const byName = new Map(walls.map((wall) => [wall.wall, wall]));
  for (const wall of walls) {
    for (const name of wall.neighbours) {
      const other = byName.get(name);
      const [own, joined] = [groupOf.get(wall.wall), groupOf.get(name)];
      if (other === undefined || other.site !== wall.site || other.block !== wall.block || other.side !== wall.side)
        continue;
      if (own === undefined || joined === undefined || own === joined) continue;
      own.push(...joined);
      for (const member of joined) groupOf.set(member.wall, own);
    }
  }
  return [...new Set(groupOf.values())];
}
