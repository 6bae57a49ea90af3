import { itemAt } from '../../plain/in-order.js';
import { mean, standardDeviation, studentT } from '../../statistics/index.js';
import { checkFinite } from '../checked-quantity.js';
import { MoistureError } from '../moisture-error.js';
import { checkedOptions, type HeightPattern, type HeightPatternOptions, type PointInterval } from './height-pattern.js';
import { heightShape } from './height-shape.js';

/** A moisture of one wall at each of its heights, once. */
export type WallProfile = readonly { readonly height_mm: number; readonly value_pct: number }[];

const where = 'heightPatternOfWalls';

/**
 * The shape of moisture over height in several walls, by the rules of `heightPattern`, with walls as the units: two heights are
 * compared by the differences inside walls that have both, with Student's t on walls less one degrees of freedom, shared out over
 * all pairs of heights (Bonferroni). What one wall is wetter than another at all heights does not count against it.
 *
 * @throws MoistureError `too-few` for fewer than three heights, or two that fewer than two walls have; `out-of-order` where a wall has a
 *   height twice; `not-finite`, `out-of-range`
 * @example
 * const wall = (...values) => values.map((value_pct, at) => ({ height_mm: 200 + 400 * at, value_pct }));
 * heightPatternOfWalls([wall(12, 9, 5), wall(11, 8.2, 4.4), wall(13, 9.7, 6.1)], { relevantDifference_pp: 1 }).shape // 'falling'
 */
export function heightPatternOfWalls(profiles: readonly WallProfile[], options: HeightPatternOptions): HeightPattern {
  const { relevantDifference_pp, errorRate } = checkedOptions(where, options);
  const walls = profiles.map(byHeight);
  const heights = [...new Set(walls.flatMap((wall) => [...wall.keys()]))].sort((one, other) => one - other);
  if (heights.length < 3)
    throw new MoistureError(
      where,
      'too-few',
      `needs at least 3 heights, got ${heights.length}; a line through two is no profile`,
    );
  const pairs = (heights.length * (heights.length - 1)) / 2;
  const spread = (values: readonly number[]) => spreadOfWalls(values, errorRate / pairs);
  const points = heights.map((height_mm): PointInterval => {
    const { value, reach } = spread(walls.flatMap((wall) => wall.get(height_mm) ?? []));
    return { height_mm, value_pct: value, lower_pct: value - reach, upper_pct: value + reach };
  });
  const between = (lower: number, upper: number) => {
    const { value, reach } = spread(
      walls.flatMap((wall) => differenceIn(wall, itemAt(heights, lower), itemAt(heights, upper))),
    );
    return { difference_pp: value, reach_pp: reach };
  };
  const highest = points.reduce((most, point) => (point.value_pct > most.value_pct ? point : most));
  const lowest = points.reduce((least, { value_pct }) => Math.min(least, value_pct), Number.POSITIVE_INFINITY);
  return {
    ...heightShape(heights.length, between, relevantDifference_pp),
    range_pp: highest.value_pct - lowest,
    base: itemAt(points, 0),
    highest,
  };
}

function byHeight(profile: WallProfile): ReadonlyMap<number, number> {
  for (const { height_mm, value_pct } of profile) {
    checkFinite(where, 'height', height_mm);
    checkFinite(where, 'moisture', value_pct);
  }
  const values = new Map(profile.map(({ height_mm, value_pct }) => [height_mm, value_pct]));
  if (values.size < profile.length)
    throw new MoistureError(
      where,
      'out-of-order',
      'needs a height once in a wall; average the cores of a height first',
    );
  return values;
}

function differenceIn(wall: ReadonlyMap<number, number>, lower: number, upper: number): readonly number[] {
  const [one, other] = [wall.get(lower), wall.get(upper)];
  return one === undefined || other === undefined ? [] : [one - other];
}

/** The mean over walls, and how far Student's interval reaches to either side of it. */
function spreadOfWalls(
  values: readonly number[],
  errorRate: number,
): { readonly value: number; readonly reach: number } {
  if (values.length < 2) {
    const detail = `needs at least 2 walls with each two heights, got ${values.length}; leave out heights that few walls have`;
    throw new MoistureError(where, 'too-few', detail);
  }
  const t = studentT(values.length - 1).upperQuantile(errorRate / 2);
  return { value: mean(values), reach: (t * standardDeviation(values)) / Math.sqrt(values.length) };
}
