import { type BlockLayout, blockLayout, type Meeting } from './block-layout.js';
import { addNeighbours, addSquare, mirrorDense, type RowValues } from './cross-products.js';
import { type Grouping, grouping } from './grouping.js';
import type { ResidualStructure } from './mixed-model.js';

/**
 * The cross-products weighted by the inverse of the residual correlation, as a sum of fixed matrices with weights that
 * depend on the residual parameters. So a trial of those parameters costs no pass over the observations.
 */
export interface ResidualProducts {
  /** Starting values of the residual parameters, which may be any real numbers. */
  readonly start: readonly number[];
  readonly components: readonly Float64Array[];
  readonly weigh: (parameters: readonly number[]) => ResidualWeights;
}

export interface ResidualWeights {
  /** Of each component. */
  readonly weights: readonly number[];
  /** Derivatives of the weights, by parameter. */
  readonly slopes: readonly (readonly number[])[];
  /** Logarithm of the determinant of the residual correlation (relative covariance), and its derivatives. */
  readonly logDeterminant: number;
  readonly logDeterminantSlopes: readonly number[];
}

/** Two observations of one series that follow one another. */
interface Step {
  readonly earlier: number;
  readonly later: number;
  readonly gap: number;
}

/** The layout of the cross-products and the cross-products themselves. */
export function residualProducts(
  structure: ResidualStructure,
  data: RowValues,
  tail: number,
): { readonly layout: BlockLayout; readonly products: ResidualProducts } {
  const steps = structure.kind === 'autoregressive' ? seriesSteps(grouping(structure.series), structure.steps) : [];
  const meetings: Meeting | undefined =
    steps.length === 0
      ? undefined
      : {
          first: Int32Array.from(steps, ({ earlier }) => earlier),
          second: Int32Array.from(steps, ({ later }) => later),
        };
  const { terms } = data;
  const layout = blockLayout(
    terms.map(({ grouping: { codes } }) => codes),
    terms.map(({ size }) => size),
    terms.map(({ grouping: { levels } }) => levels.length),
    tail,
    meetings,
  );
  const rows = data.tail.length / tail;
  switch (structure.kind) {
    case 'equal':
      return { layout, products: equal(layout, data, rows) };
    case 'by-group':
      return { layout, products: byGroup(layout, data, grouping(structure.groups)) };
    case 'autoregressive':
      return { layout, products: autoregressive(layout, data, rows, steps) };
  }
}

function equal(layout: BlockLayout, data: RowValues, rows: number): ResidualProducts {
  const component = new Float64Array(layout.length);
  for (let row = 0; row < rows; row++) addSquare(component, layout, data, row);
  mirrorDense(component, layout);
  const fixed = { weights: [1], slopes: [], logDeterminant: 0, logDeterminantSlopes: [] };
  return { start: [], components: [component], weigh: () => fixed };
}

/** Parameters: the logarithm of each further group's standard deviation over that of the first. */
function byGroup(layout: BlockLayout, data: RowValues, groups: Grouping): ResidualProducts {
  const components = groups.levels.map(() => new Float64Array(layout.length));
  const counts = groups.levels.map(() => 0);
  groups.codes.forEach((code, row) => {
    addSquare(components[code]!, layout, data, row);
    counts[code]! += 1;
  });
  for (const component of components) mirrorDense(component, layout);
  const later = counts.slice(1);
  const weigh = (parameters: readonly number[]): ResidualWeights => {
    const weights = [1, ...parameters.map((logRatio) => Math.exp(-2 * logRatio))];
    return {
      weights,
      slopes: later.map((_, at) => weights.map((weight, component) => (component === at + 1 ? -2 * weight : 0))),
      logDeterminant: later.reduce((sum, count, at) => sum + 2 * count * parameters[at]!, 0),
      logDeterminantSlopes: later.map((count) => 2 * count),
    };
  };
  return { start: later.map(() => 0), components, weigh };
}

/**
 * Parameter: the inverse hyperbolic tangent of the correlation r of neighbours. An observation h steps after the one
 * before it brings the square of (itself less r^h times the one before) over (1 - r^2h); the first of a series brings
 * its own square.
 */
function autoregressive(layout: BlockLayout, data: RowValues, rows: number, steps: readonly Step[]): ResidualProducts {
  const gaps = [...new Set(steps.map(({ gap }) => gap))].sort((a, b) => a - b);
  const firsts = new Float64Array(layout.length);
  const squares = gaps.map(() => ({
    later: new Float64Array(layout.length),
    earlier: new Float64Array(layout.length),
    both: new Float64Array(layout.length),
  }));
  const follows = new Uint8Array(rows);
  const counts = gaps.map(() => 0);
  for (const { earlier, later, gap } of steps) {
    const at = gaps.indexOf(gap);
    const { later: own, earlier: before, both } = squares[at]!;
    addSquare(own, layout, data, later);
    addSquare(before, layout, data, earlier);
    addNeighbours(both, layout, data, earlier, later);
    follows[later] = 1;
    counts[at]! += 1;
  }
  for (let row = 0; row < rows; row++) if (follows[row] === 0) addSquare(firsts, layout, data, row);
  const components = [firsts, ...squares.flatMap(({ later, earlier, both }) => [later, earlier, both])];
  for (const component of components) mirrorDense(component, layout);
  const weigh = ([parameter]: readonly number[]): ResidualWeights => {
    const correlation = Math.tanh(parameter!);
    const rate = 1 - correlation * correlation;
    const weights = [1];
    const slopes = [0];
    let logDeterminant = 0;
    let logDeterminantSlope = 0;
    gaps.forEach((gap, at) => {
      const power = correlation ** gap;
      const powerSlope = gap * correlation ** (gap - 1) * rate;
      const left = 1 - power * power;
      const factor = (2 * power * powerSlope) / (left * left);
      weights.push(1 / left, (power * power) / left, -power / left);
      slopes.push(factor, factor, (-powerSlope * (1 + power * power)) / (left * left));
      logDeterminant += counts[at]! * Math.log(left);
      logDeterminantSlope -= (counts[at]! * 2 * power * powerSlope) / left;
    });
    return { weights, slopes: [slopes], logDeterminant, logDeterminantSlopes: [logDeterminantSlope] };
  };
  return { start: [Math.atanh(0.2)], components, weigh };
}

/** Neighbours in each series, by their step numbers. */
export function seriesSteps(series: Grouping, steps: readonly number[]): Step[] {
  const order = Array.from(steps.keys()).sort((a, b) => series.codes[a]! - series.codes[b]! || steps[a]! - steps[b]!);
  return order.slice(1).flatMap((later, at) => {
    const earlier = order[at]!;
    if (series.codes[earlier] !== series.codes[later]) return [];
    return [{ earlier, later, gap: steps[later]! - steps[earlier]! }];
  });
}
