import { budgetOfTerms, type UncertaintyBudget } from '../../statistics/index.js';
import { checkNotNegative, checkPositive } from '../checked-quantity.js';
import { MoistureError } from '../moisture-error.js';
import { checkPoints, heightsOf, type MoistureAtPoint } from './moisture-at-point.js';

export interface UncertainMoisture extends MoistureAtPoint {
  /** Of the value as standing for its place, percentage points. */
  readonly standardUncertainty_pp: number;
}

export interface WallBody {
  readonly thickness_mm: number;
  readonly dryDensity_kg_m3: number;
  /** Zero unless given. */
  readonly dryDensityUncertainty_kg_m3?: number;
}

const where = 'storedWater';

/**
 * Water in a square metre of wall face, kg/m², averaged over the measured heights: ρ ∫∫ u dz dh / H by the trapezoid rule.
 *
 * Over depth the outermost values hold level to the faces; a height with no depths stands for its whole thickness. Over
 * height the mean runs from the lowest to the highest height, and nothing outside is claimed. The budget has one row a point
 * and one for the density; the points' errors are taken as independent, so that an error common to all (balance, oven) must be
 * added to it by the caller. How the wall behaves between the points is not in the uncertainty.
 *
 * @throws MoistureError `too-few` below two heights; `out-of-order` for two points at one place, or a height with and without
 *   depths; `out-of-range` for a depth beyond the thickness; `not-finite`
 * @example
 * const points = [[200, 8], [1000, 4]].map(([height_mm, value_pct]) => ({ height_mm, value_pct, standardUncertainty_pp: 0.3 }));
 * storedWater(points, { thickness_mm: 220, dryDensity_kg_m3: 1700 }).value // 22.44
 */
export function storedWater(points: readonly UncertainMoisture[], body: WallBody): UncertaintyBudget {
  const { thickness_mm, dryDensity_kg_m3, dryDensityUncertainty_kg_m3 = 0 } = body;
  checkPoints(where, points, 2);
  checkPositive(where, 'thickness', thickness_mm, 'mm');
  checkPositive(where, 'dry density', dryDensity_kg_m3, 'kg/m³');
  checkNotNegative(where, 'uncertainty of the density', dryDensityUncertainty_kg_m3, 'kg/m³');
  const heights = heightsOf(points);
  const range = heights.at(-1)! - heights[0]!;
  const shares = trapezoidWeights(heights, heights[0]!, heights.at(-1)!).map((weight) => weight / range);
  const terms = heights.flatMap((height, k) => {
    const own = points.filter(({ height_mm }) => height_mm === height);
    return overDepth(own, thickness_mm).map(({ point, reach_mm }) => ({
      name: point.depth_mm === undefined ? `${height} mm high` : `${height} mm high, ${point.depth_mm} mm deep`,
      value: point.value_pct,
      standardUncertainty: point.standardUncertainty_pp,
      distribution: 'normal' as const,
      sensitivity: (dryDensity_kg_m3 * shares[k]! * reach_mm) / 1e5,
    }));
  });
  const water = terms.reduce((sum, { value, sensitivity }) => sum + value * sensitivity, 0);
  const density = {
    name: 'dry density',
    value: dryDensity_kg_m3,
    standardUncertainty: dryDensityUncertainty_kg_m3,
    distribution: 'normal' as const,
    sensitivity: water / dryDensity_kg_m3,
  };
  return budgetOfTerms<string>(water, [...terms, density]);
}

/** How much of the thickness each point of one height stands for. */
function overDepth(points: readonly UncertainMoisture[], thickness_mm: number) {
  const ordered = [...points].sort((one, other) => (one.depth_mm ?? 0) - (other.depth_mm ?? 0));
  const depths = ordered.map(({ depth_mm }) => depth_mm);
  if (depths.length > 1 && (depths.includes(undefined) || new Set(depths).size < depths.length)) {
    const detail = `needs each depth once at ${points[0]!.height_mm} mm high; average the readings of a place first`;
    throw new MoistureError(where, 'out-of-order', detail);
  }
  const known = depths.filter((depth) => depth !== undefined);
  if (known.length === 0) return ordered.map((point) => ({ point, reach_mm: thickness_mm }));
  if (known.at(-1)! > thickness_mm) {
    const detail = `needs depths inside the ${thickness_mm} mm of the wall, got ${known.at(-1)} mm`;
    throw new MoistureError(where, 'out-of-range', detail);
  }
  const reaches = trapezoidWeights(known, 0, thickness_mm);
  return ordered.map((point, k) => ({ point, reach_mm: reaches[k]! }));
}

/** Weights of the trapezoid rule from one end to another, level outside the outermost points. */
function trapezoidWeights(at: readonly number[], from: number, to: number): number[] {
  const edges = [from, ...at.slice(1).map((place, k) => (place + at[k]!) / 2), to];
  return at.map((_, k) => edges[k + 1]! - edges[k]!);
}
