import { itemAt, neighboursIn } from '../../plain/in-order.js';
import { budgetOfTerms, extremes, type UncertaintyBudget } from '../../statistics/index.js';
import { checkNotNegative, checkPositive } from '../checked-quantity.js';
import { MoistureError } from '../moisture-error.js';
import { checkPoints, heightsOf, type MoistureAtPoint } from './moisture-at-point.js';

export interface UncertainMoisture extends MoistureAtPoint {
  /** Of the value as standing for its place, percentage points. */
  readonly standardUncertainty_pp: number;
  /** What a core takes in, from the front face; absent: the value of a point at `depth_mm`. */
  readonly depths_mm?: { readonly from: number; readonly to: number };
}

export interface WallBody {
  readonly thickness_mm: number;
  readonly dryDensity_kg_m3: number;
  /** Zero unless given. */
  readonly dryDensityUncertainty_kg_m3?: number;
}

/** Water of a square metre of wall, and how much of it stands on no core. */
export interface StoredWater extends UncertaintyBudget {
  /** Share of the thickness that lies beyond the deepest core, mean over the heights: not measured. */
  readonly beyondShare: number;
  /** Part of the water that was put there, kg/m², with the value of the deepest core. */
  readonly beyond_kg_m2: number;
}

const where = 'storedWater';

/**
 * Water in a square metre of wall face, kg/m², averaged over the measured heights: ρ ∫∫ u dz dh / H by the trapezoid rule.
 *
 * A core over a depth interval stands for that interval and half of the gap to its neighbours, a point for half of either gap. Depths count from
 * the front face through to the far one, so that cores drilled from both faces bracket the wall. The outermost values hold level to the faces:
 * what lies beyond the deepest core is not measured, and is reported separately. A height with no depths stands for its whole thickness. Over
 * height the mean runs from the lowest to the highest height, and nothing outside is claimed. The budget has one row a point
 * and one for the density; the points' errors are taken as independent, so that an error common to all (balance, oven) must be
 * added to it by the caller. How the wall behaves between the points is not in the uncertainty.
 *
 * @throws MoistureError `too-few` below two heights; `out-of-order` for two points at one place, or a height with and without
 *   depths; `out-of-range` for a depth beyond the thickness, cores that overlap or an interval that does not hold its depth; `not-finite`
 * @example
 * const points = [[200, 8], [1000, 4]].map(([height_mm, value_pct]) => ({ height_mm, value_pct, standardUncertainty_pp: 0.3 }));
 * storedWater(points, { thickness_mm: 220, dryDensity_kg_m3: 1700 }).value // 22.44
 */
export function storedWater(points: readonly UncertainMoisture[], body: WallBody): StoredWater {
  const { thickness_mm, dryDensity_kg_m3, dryDensityUncertainty_kg_m3 = 0 } = body;
  checkPoints(where, points, 2);
  checkPositive(where, 'thickness', thickness_mm, 'mm');
  checkPositive(where, 'dry density', dryDensity_kg_m3, 'kg/m³');
  checkNotNegative(where, 'uncertainty of the density', dryDensityUncertainty_kg_m3, 'kg/m³');
  const heights = heightsOf(points);
  const { least, greatest } = extremes(heights);
  const terms = reaches(heights, (lower, upper) => (lower + upper) / 2, [least, greatest]).flatMap(
    ({ item: height, reach }) => {
      const share = reach / (greatest - least);
      const own = points.filter(({ height_mm }) => height_mm === height);
      return overDepth(own, height, thickness_mm).map(({ point, reach_mm, beyond_mm }) => ({
        share,
        beyond_mm,
        name: point.depth_mm === undefined ? `${height} mm` : `${height}/${point.depth_mm} mm`,
        value: point.value_pct,
        standardUncertainty: point.standardUncertainty_pp,
        distribution: 'normal' as const,
        sensitivity: (dryDensity_kg_m3 * share * reach_mm) / 1e5,
      }));
    },
  );
  const water = terms.reduce((sum, { value, sensitivity }) => sum + value * sensitivity, 0);
  const density = {
    name: 'dry density',
    value: dryDensity_kg_m3,
    standardUncertainty: dryDensityUncertainty_kg_m3,
    distribution: 'normal' as const,
    sensitivity: water / dryDensity_kg_m3,
  };
  const beyond = terms.reduce((sum, { share, beyond_mm }) => sum + share * beyond_mm, 0);
  return {
    ...budgetOfTerms<string>(water, [...terms.map(({ share: _, beyond_mm: __, ...term }) => term), density]),
    beyondShare: beyond / thickness_mm,
    beyond_kg_m2: terms.reduce(
      (sum, { value, share, beyond_mm }) => sum + (value * dryDensity_kg_m3 * share * beyond_mm) / 1e5,
      0,
    ),
  };
}

/** How much of the thickness each point of one height stands for, and how much of that lies beyond the deepest of them. */
function overDepth(points: readonly UncertainMoisture[], height_mm: number, thickness_mm: number) {
  const ordered = [...points].sort((one, other) => (one.depth_mm ?? 0) - (other.depth_mm ?? 0));
  const depths = ordered.map(({ depth_mm }) => depth_mm);
  if (depths.length > 1 && (depths.includes(undefined) || new Set(depths).size < depths.length)) {
    const detail = `needs each depth once at ${height_mm} mm high; average the readings of a place first`;
    throw new MoistureError(where, 'out-of-order', detail);
  }
  const cores = ordered.flatMap((point) => {
    const { depth_mm, depths_mm } = point;
    return depth_mm === undefined ? [] : [{ point, depth_mm, ...(depths_mm ?? { from: depth_mm, to: depth_mm }) }];
  });
  const deepest = cores.at(-1);
  if (deepest === undefined) return ordered.map((point) => ({ point, reach_mm: thickness_mm, beyond_mm: 0 }));
  checkCores(cores, thickness_mm);
  // Between two cores the border lies half way.
  return reaches(cores, (one, next) => (one.to + next.from) / 2, [0, thickness_mm]).map(({ item, reach }) => ({
    point: item.point,
    reach_mm: reach,
    beyond_mm: item === deepest ? thickness_mm - deepest.to : 0,
  }));
}

interface CoreAtDepth {
  readonly depth_mm: number;
  readonly from: number;
  readonly to: number;
}

function checkCores(cores: readonly CoreAtDepth[], thickness_mm: number): void {
  cores.forEach(({ depth_mm, from, to }, k) => {
    const next = cores[k + 1]?.from ?? thickness_mm;
    if (from >= 0 && from <= depth_mm && depth_mm <= to && to <= next) return;
    const detail = `needs depths one after another inside the ${thickness_mm} mm of the wall, got ${from} to ${to} mm with ${depth_mm} mm`;
    throw new MoistureError(where, 'out-of-range', detail);
  });
}

/** How far each item reaches: from its border with the one before to that with the next, the outermost up to the ends. */
function reaches<Item>(
  items: readonly Item[],
  borderOf: (one: Item, next: Item) => number,
  [from, to]: readonly [number, number],
): readonly { readonly item: Item; readonly reach: number }[] {
  const borders = [from, ...neighboursIn(items).map(([one, next]) => borderOf(one, next)), to];
  return neighboursIn(borders).map(([start, end], at) => ({ item: itemAt(items, at), reach: end - start }));
}
