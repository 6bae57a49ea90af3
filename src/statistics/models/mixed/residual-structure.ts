import { autoregressiveProducts } from './autoregressive-products.js';
import { type BlockLayout, blockLayout, type Meeting } from './block-layout.js';
import { addSquare, addSquares, mirrorDense, type RowValues } from './cross-products.js';
import { type Grouping, grouping } from './grouping.js';
import type { ResidualStructure } from './mixed-model.js';
import type { ResidualProducts, ResidualWeights } from './residual-products.js';
import { seriesSteps } from './series-steps.js';

/** The layout of the cross-products and the cross-products themselves. */
export function residualProducts(
  structure: ResidualStructure,
  data: RowValues,
  tail: number,
): { readonly layout: BlockLayout; readonly products: ResidualProducts } {
  const steps = 'series' in structure ? seriesSteps(grouping(structure.series), structure.steps) : [];
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
      return { layout, products: autoregressiveProducts(layout, data, grouping(structure.series.map(() => 1)), steps) };
    case 'autoregressive-by-group':
      return { layout, products: autoregressiveProducts(layout, data, grouping(structure.groups), steps) };
  }
}

function equal(layout: BlockLayout, data: RowValues, rows: number): ResidualProducts {
  const component = new Float64Array(layout.length);
  addSquares(component, layout, data, rows);
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
