import { checkFinite, checkNotNegative } from '../checked-quantity.js';
import { MoistureError } from '../moisture-error.js';

/** Moisture at a point of one wall at one visit. */
export interface MoistureAtPoint {
  readonly height_mm: number;
  /** From the measured face; absent where the reading stands for the whole thickness. */
  readonly depth_mm?: number;
  /** Percent by mass on the dry basis. */
  readonly value_pct: number;
}

/** The different heights, upward. */
export function heightsOf(points: readonly MoistureAtPoint[]): number[] {
  return [...new Set(points.map(({ height_mm }) => height_mm))].sort((one, other) => one - other);
}

/** Refuses points that are not finite, and fewer different heights than a method needs. */
export function checkPoints(where: string, points: readonly MoistureAtPoint[], fewestHeights: number): void {
  for (const { height_mm, depth_mm, value_pct } of points) {
    checkFinite(where, 'height', height_mm);
    checkFinite(where, 'moisture', value_pct);
    if (depth_mm !== undefined) checkNotNegative(where, 'depth', depth_mm, 'mm');
  }
  const heights = heightsOf(points).length;
  if (heights < fewestHeights) {
    const detail = `needs at least ${fewestHeights} different heights, got ${heights}; measure at more heights`;
    throw new MoistureError(where, 'too-few', detail);
  }
}
