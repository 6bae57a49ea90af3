import { inverse } from '../../numerics/matrix/square-matrix.js';
import type { BlockLayout } from './block-layout.js';
import { blockStride, tailAt } from './cross-products.js';
import { eachBlock } from './each-block.js';
import type { FactorEntry } from './relative-factor.js';

/**
 * The method of moments: sums of products of the least-squares residuals by level are set equal to their expectations, which are linear in
 * the variances and covariances (Searle, Casella and McCulloch, Variance Components, 1992, chapter 5).
 */
export interface MomentEquations {
  /** What was observed: a sum for each entry of the relative covariance factors and, last, the residuals' sum of squares. */
  readonly observed: Float64Array;
  /** Of the equations: its product with what was observed are the variances and covariances. */
  readonly inverse: Float64Array;
  /**
   * The largest number of that inverse, with the equations and unknowns in units in which all are alike. Where it is small, no combination
   * of the covariance matrices vanishes once the fixed columns are taken out.
   */
  readonly sensitivity: number;
}

/** What the equations are made from. */
interface MomentSource {
  readonly layout: BlockLayout;
  /** Of the relative covariance factors: the covariances that are unknown. */
  readonly entries: readonly FactorEntry[];
  readonly fixedEffects: number;
  readonly observations: number;
}

/**
 * With M for what takes the fixed columns out, v'Mw of two effects is v'w less x'x, with x for an effect's products with the turned fixed
 * columns. Products of two such numbers are summed over all pairs of effects: those that are made of the x alone over all at once, the
 * rest over pairs that meet in a row of the data.
 *
 * @param products of residuals with equal variances
 */
export function momentEquations(source: MomentSource, products: Float64Array): MomentEquations {
  const { layout, entries, fixedEffects, observations } = source;
  const size = entries.length + 1;
  const sums: Sums = {
    source,
    byTerm: layout.termSize.map((_, term) =>
      entries.map((entry, at) => ({ ...entry, at })).filter((entry) => entry.term === term),
    ),
    effects: effectProducts(source, products),
    observed: new Float64Array(size),
    expected: new Float64Array(size * size),
    rowUnits: new Float64Array(size),
    columnUnits: new Float64Array(size),
  };
  addLevels(sums);
  addMeetings(sums, products);
  const corner = layout.length - 1;
  sums.observed[size - 1] = products[corner]!;
  sums.expected[size * size - 1] = observations - fixedEffects;
  sums.rowUnits[size - 1] = observations - fixedEffects;
  sums.columnUnits[size - 1] = 1;
  return solvable(sums, size);
}

interface Entry extends FactorEntry {
  /** Its place among all. */
  readonly at: number;
}

interface Sums {
  readonly source: MomentSource;
  readonly byTerm: readonly (readonly Entry[])[];
  readonly effects: EffectProducts;
  readonly observed: Float64Array;
  readonly expected: Float64Array;
  /** The most that an equation's number may be for a covariance matrix of length 1, and the length of each covariance matrix. */
  readonly rowUnits: Float64Array;
  readonly columnUnits: Float64Array;
}

/** Of every random effect the products of its column. */
interface EffectProducts {
  /** One over the length of the column; zero for a column of zeros. */
  readonly perLength: Float64Array;
  /** With the fixed columns, row-major. */
  readonly fixed: Float64Array;
  /** With the response. */
  readonly response: Float64Array;
  /** Of the effects of one level with one another: first number and stride of its block. */
  readonly own: (level: number) => { readonly base: number; readonly stride: number };
  readonly products: Float64Array;
}

function effectProducts({ layout, fixedEffects }: MomentSource, products: Float64Array): EffectProducts {
  const { denseStart, denseSize, effectStart, frontLevels, panelStart } = layout;
  const own = (level: number) => {
    const stride = blockStride(layout, level);
    if (level < frontLevels) return { base: panelStart[level]!, stride };
    return { base: denseStart + (effectStart[level]! - effectStart[frontLevels]!) * (denseSize + 1), stride };
  };
  const [perLength, response] = [new Float64Array(layout.effects), new Float64Array(layout.effects)];
  const fixed = new Float64Array(layout.effects * fixedEffects);
  for (let level = 0; level < layout.levels; level++) {
    const { base, stride } = own(level);
    const tail = tailAt(layout, level);
    const first = effectStart[level]!;
    for (let column = 0; first + column < effectStart[level + 1]!; column++) {
      const effect = first + column;
      const square = products[base + column * (stride + 1)]!;
      perLength[effect] = square > 0 ? 1 / Math.sqrt(square) : 0;
      for (let row = 0; row < fixedEffects; row++)
        fixed[effect * fixedEffects + row] = products[tail + row * stride + column]!;
      response[effect] = products[tail + fixedEffects * stride + column]!;
    }
  }
  return { perLength, fixed, response, own, products };
}

/** What needs one level at a time: what was observed, the residual's share of it, and the part that is made of the x alone. */
function addLevels({ source, byTerm, effects, observed, expected, rowUnits, columnUnits }: Sums): void {
  const { layout, fixedEffects: width, entries } = source;
  const { perLength, fixed, response, own, products } = effects;
  const last = entries.length;
  const size = last + 1;
  const crossed = entries.map(() => new Float64Array(width * width));
  const weighted = entries.map(() => new Float64Array(width * width));
  for (let level = 0; level < layout.levels; level++) {
    const first = layout.effectStart[level]!;
    const { base, stride } = own(level);
    for (const { at, row, column } of byTerm[layout.levelTerm[level]!]!) {
      const [one, other] = [first + row, first + column];
      const weight = perLength[one]! * perLength[other]!;
      if (weight === 0) continue;
      let left = products[base + row * stride + column]!;
      for (let k = 0; k < width; k++) {
        const factor = fixed[one * width + k]!;
        left -= factor * fixed[other * width + k]!;
        for (let j = 0; j < width; j++) {
          const product = factor * fixed[other * width + j]!;
          crossed[at]![k * width + j]! += product;
          weighted[at]![k * width + j]! += product * weight;
        }
      }
      const times = row === column ? 1 : 2;
      observed[at]! += response[one]! * response[other]! * weight;
      expected[at * size + last]! += left * weight;
      expected[last * size + at]! += left * times;
      rowUnits[at]! += 1;
      columnUnits[at] = Math.max(columnUnits[at]!, times / weight);
    }
  }
  for (const one of entries.keys()) {
    for (const [at, { row, column }] of entries.entries()) {
      let sum = 0;
      for (let k = 0; k < width; k++) {
        for (let j = 0; j < width; j++) {
          const facing = crossed[at]!;
          const both = row === column ? 0 : facing[j * width + k]!;
          sum += weighted[one]![k * width + j]! * (facing[k * width + j]! + both);
        }
      }
      expected[one * size + at]! += sum;
    }
  }
}

/** The rest: of pairs of levels that meet in a row of the data. */
function addMeetings({ source, byTerm, effects, expected }: Sums, products: Float64Array): void {
  const { layout, fixedEffects: width, entries } = source;
  const { perLength, fixed } = effects;
  const { effectStart, levelTerm, termSize } = layout;
  const size = entries.length + 1;
  const widest = Math.max(1, ...termSize);
  // Of one pair of levels: the products of their effects, and of the x.
  const [whole, shared] = [new Float64Array(widest * widest), new Float64Array(widest * widest)];
  /** What the product of two entries of v'Mw has beyond that of the x. */
  const beyond = (one: number, other: number) =>
    whole[one]! * (whole[other]! - shared[other]!) - shared[one]! * whole[other]!;
  eachBlock(layout, (base, stride, down, across) => {
    const [above, beside] = [effectStart[down]!, effectStart[across]!];
    const [height, breadth] = [effectStart[down + 1]! - above, effectStart[across + 1]! - beside];
    for (let row = 0; row < height; row++) {
      for (let column = 0; column < breadth; column++) {
        let sum = 0;
        for (let k = 0; k < width; k++)
          sum += fixed[(above + row) * width + k]! * fixed[(beside + column) * width + k]!;
        whole[row * breadth + column] = products[base + row * stride + column]!;
        shared[row * breadth + column] = sum;
      }
    }
    for (const one of byTerm[levelTerm[down]!]!) {
      const ofOne = perLength[above + one.row]! * perLength[above + one.column]!;
      for (const other of byTerm[levelTerm[across]!]!) {
        const ofOther = perLength[beside + other.row]! * perLength[beside + other.column]!;
        const straight = beyond(one.row * breadth + other.row, one.column * breadth + other.column);
        const turned = beyond(one.row * breadth + other.column, one.column * breadth + other.row);
        expected[one.at * size + other.at]! += ofOne * (other.row === other.column ? straight : straight + turned);
        if (down !== across)
          expected[other.at * size + one.at]! += ofOther * (one.row === one.column ? straight : straight + turned);
      }
    }
  });
}

function solvable({ observed, expected, rowUnits, columnUnits }: Sums, size: number): MomentEquations {
  const alike = expected.map((value, at) => value / rowUnits[Math.floor(at / size)]! / columnUnits[at % size]!);
  const solved = inverse(alike, size);
  let sensitivity = 0;
  for (const value of solved) sensitivity = Math.max(sensitivity, Math.abs(value));
  return {
    observed,
    inverse: solved.map((value, at) => value / columnUnits[Math.floor(at / size)]! / rowUnits[at % size]!),
    // NaN where an equation has nothing in it.
    sensitivity: Number.isNaN(sensitivity) ? Number.POSITIVE_INFINITY : sensitivity,
  };
}
