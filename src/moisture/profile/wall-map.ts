import { type Group, groupBy } from '../../plain/group-by.js';
import { present } from '../../plain/present.js';
import { checkPoints, type MoistureAtPoint } from './moisture-at-point.js';

/** A place of a wall, or of several walls laid over one another, with the mean there. */
export interface WallMapCell {
  readonly height_mm: number;
  readonly depth_mm?: number;
  readonly value: number;
  /** How many values the mean is of. */
  readonly n: number;
}

/**
 * Mean moisture at each height and depth, from the lowest place up and from the face inward.
 *
 * @throws MoistureError `too-few` without points, `not-finite`
 * @example wallMap([{ height_mm: 300, value_pct: 8 }, { height_mm: 300, value_pct: 9 }]) // [{ height_mm: 300, value: 8.5, n: 2 }]
 */
export function wallMap(points: readonly MoistureAtPoint[]): readonly WallMapCell[] {
  checkPoints('wallMap', points, 1);
  return [...groupBy(points, keyOf).values()].map(meanOfPlace).sort(upwardAndInward);
}

/**
 * After less before at the places that both visits have; `n` is the smaller of the two numbers.
 *
 * @throws MoistureError as `wallMap`
 * @example wallMapOfChange([{ height_mm: 300, value_pct: 8 }], [{ height_mm: 300, value_pct: 6.6 }]) // [{ height_mm: 300, value: -1.4, n: 1 }]
 */
export function wallMapOfChange(
  before: readonly MoistureAtPoint[],
  after: readonly MoistureAtPoint[],
): readonly WallMapCell[] {
  const earlier = new Map(wallMap(before).map((cell) => [keyOf(cell), cell]));
  return wallMap(after).flatMap((cell) => {
    const first = earlier.get(keyOf(cell));
    return first === undefined ? [] : [{ ...cell, value: cell.value - first.value, n: Math.min(cell.n, first.n) }];
  });
}

function keyOf({ height_mm, depth_mm }: { readonly height_mm: number; readonly depth_mm?: number }): string {
  return `${height_mm} ${depth_mm ?? ''}`;
}

function meanOfPlace(points: Readonly<Group<MoistureAtPoint>>): WallMapCell {
  const [{ height_mm, depth_mm }] = points;
  const value = points.reduce((sum, point) => sum + point.value_pct, 0) / points.length;
  return { height_mm, ...present({ depth_mm }), value, n: points.length };
}

function upwardAndInward(one: WallMapCell, other: WallMapCell): number {
  return one.height_mm - other.height_mm || (one.depth_mm ?? 0) - (other.depth_mm ?? 0);
}
