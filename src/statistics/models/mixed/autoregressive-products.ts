import type { BlockLayout } from './block-layout.js';
import { addNeighbours, addSquare, mirrorDense, type RowValues } from './cross-products.js';
import type { Grouping } from './grouping.js';
import type { ResidualProducts, ResidualWeights } from './residual-products.js';
import type { Step } from './series-steps.js';

/** What a cross-product stands for: the first of a series, or the later, the earlier or both of two neighbours. */
type Role = 'first' | 'later' | 'earlier' | 'both';

/** Cross-products that share a weight. */
interface Part {
  readonly role: Role;
  /** Steps between the neighbours. */
  readonly gap: number;
  /** Groups of the two observations that were multiplied. */
  readonly groups: readonly [number, number];
  readonly products: Float64Array;
}

/**
 * Residuals that are autoregressive in units of their group's standard deviation.
 *
 * An observation h steps after the one before it brings the square of (itself less r^h times the one before) over
 * (1 - r^2h), both divided by their standard deviations; the first of a series brings its own square.
 *
 * Parameters: the inverse hyperbolic tangent of the correlation r of neighbours, then the logarithm of each further
 * group's standard deviation over that of the first.
 */
export function autoregressiveProducts(
  layout: BlockLayout,
  data: RowValues,
  groups: Grouping,
  steps: readonly Step[],
): ResidualProducts {
  const parts = collectParts(layout, data, groups, steps);
  const gapCounts = new Map<number, number>();
  for (const { gap } of steps) gapCounts.set(gap, (gapCounts.get(gap) ?? 0) + 1);
  const groupCounts = groups.levels.map(() => 0);
  for (const code of groups.codes) groupCounts[code]! += 1;
  const later = groupCounts.slice(1);
  const weigh = ([unknown, ...logRatios]: readonly number[]): ResidualWeights => {
    const correlation = Math.tanh(unknown!);
    const byGap = new Map(Array.from(gapCounts.keys(), (gap) => [gap, gapWeights(correlation, gap)]));
    const scaled = parts.map(({ role, gap, groups: [one, other] }) => {
      const scale = Math.exp(-(logRatios[one - 1] ?? 0) - (logRatios[other - 1] ?? 0));
      if (role === 'first') return { weight: scale, slope: 0 };
      const { weight, slope } = byGap.get(gap)![role];
      return { weight: scale * weight, slope: scale * slope };
    });
    const byRatio = later.map((_, at) =>
      parts.map(({ groups: pair }, part) => -scaled[part]!.weight * pair.filter((code) => code === at + 1).length),
    );
    let logDeterminant = later.reduce((sum, count, at) => sum + 2 * count * logRatios[at]!, 0);
    let slope = 0;
    for (const [gap, count] of gapCounts) {
      logDeterminant += count * byGap.get(gap)!.logDeterminant;
      slope += count * byGap.get(gap)!.logDeterminantSlope;
    }
    return {
      weights: scaled.map(({ weight }) => weight),
      slopes: [scaled.map((part) => part.slope), ...byRatio],
      logDeterminant,
      logDeterminantSlopes: [slope, ...later.map((count) => 2 * count)],
    };
  };
  return { start: [Math.atanh(0.2), ...later.map(() => 0)], components: parts.map(({ products }) => products), weigh };
}

function collectParts(layout: BlockLayout, data: RowValues, { codes }: Grouping, steps: readonly Step[]): Part[] {
  const parts = new Map<string, Part>();
  const productsOf = (role: Role, gap: number, one: number, other: number): Float64Array => {
    const groups = [Math.min(codes[one]!, codes[other]!), Math.max(codes[one]!, codes[other]!)] as const;
    const key = [role, gap, ...groups].join(' ');
    const found = parts.get(key) ?? { role, gap, groups, products: new Float64Array(layout.length) };
    parts.set(key, found);
    return found.products;
  };
  const follows = new Uint8Array(codes.length);
  for (const { later } of steps) follows[later] = 1;
  codes.forEach((_, row) => {
    if (follows[row] === 0) addSquare(productsOf('first', 0, row, row), layout, data, row);
  });
  for (const { earlier, later, gap } of [...steps].sort((a, b) => a.gap - b.gap)) {
    addSquare(productsOf('later', gap, later, later), layout, data, later);
    addSquare(productsOf('earlier', gap, earlier, earlier), layout, data, earlier);
    addNeighbours(productsOf('both', gap, earlier, later), layout, data, earlier, later);
  }
  for (const { products } of parts.values()) mirrorDense(products, layout);
  return [...parts.values()];
}

/** Weights of neighbours so many steps apart, with their slopes by the inverse hyperbolic tangent of the correlation. */
function gapWeights(correlation: number, gap: number) {
  const power = correlation ** gap;
  const powerSlope = gap * correlation ** (gap - 1) * (1 - correlation * correlation);
  const left = 1 - power * power;
  const slope = (2 * power * powerSlope) / (left * left);
  return {
    later: { weight: 1 / left, slope },
    earlier: { weight: (power * power) / left, slope },
    both: { weight: -power / left, slope: (-powerSlope * (1 + power * power)) / (left * left) },
    logDeterminant: Math.log(left),
    logDeterminantSlope: (-2 * power * powerSlope) / left,
  };
}
