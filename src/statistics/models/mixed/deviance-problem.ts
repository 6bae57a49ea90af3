import { StatisticsError } from '../../statistics-error.js';
import type { LeastSquaresFit } from '../linear/least-squares.js';
import { checkIdentified } from './check-identified.js';
import type { DevianceProblem } from './deviance.js';
import { eliminationOrder } from './elimination-order.js';
import type { Grouping } from './grouping.js';
import type { MixedModel, RandomTerm } from './mixed-model.js';
import { type MomentEquations, momentEquations } from './moment-equations.js';
import { momentStart } from './moment-start.js';
import { type FactorEntry, factorEntries } from './relative-factor.js';
import type { ResidualProducts } from './residual-products.js';
import { residualProducts } from './residual-structure.js';
import { type ScaledTerm, scaledTerm } from './scaled-term.js';

/**
 * Forms the cross-products of a model, once. The fixed columns are turned to be orthonormal and the response is
 * replaced by its scaled least-squares residuals, so that cross-products lose no digits to large means or unlike units.
 *
 * @param scale what the residuals are divided by
 */
export function devianceProblem(
  model: MixedModel,
  groupings: readonly Grouping[],
  ordinary: LeastSquaresFit,
  scale: number,
): DevianceProblem {
  const terms = byLevels(model.random.map((term, at) => termOf(term, groupings[at]!)));
  const fixedEffects = ordinary.rank;
  const tail = fixedEffects + 1;
  const data = { terms, tail: tailRows(model, ordinary, scale) };
  const { layout, products: residual } = residualProducts(model.residual ?? { kind: 'equal' }, data, tail);
  const observations = model.response.length;
  const entries = factorEntries(terms);
  // Those of other residuals change from trial to trial.
  const products = residual.start.length === 0 ? residual.components[0] : undefined;
  const moments = products && momentEquations({ layout, entries, fixedEffects, observations }, products);
  if (model.method === 'reml') {
    const names = terms.map(({ grouping }) => model.random[groupings.indexOf(grouping)]!.name);
    checkIdentified(model, terms, names, data.tail, tail, moments?.sensitivity ?? Number.POSITIVE_INFINITY);
  }
  const freedom = model.method === 'reml' ? observations - fixedEffects : observations;
  const turning = model.method === 'reml' ? logDeterminant(ordinary.inverseFactor, fixedEffects) : 0;
  return {
    layout,
    terms,
    entries,
    residual,
    order: eliminationOrder(layout, products),
    start: startOf(terms, entries, residual, moments),
    method: model.method,
    observations,
    fixedEffects,
    constant: 2 * freedom * Math.log(scale) - 2 * turning,
    workspace: {
      products: new Float64Array(layout.length),
      factor: new Float64Array(layout.length),
      derivatives: new Float64Array(layout.length),
    },
  };
}

/** By the method of moments where residuals are all alike; or else deviations equal to the residual's, and no correlation. */
function startOf(
  terms: readonly ScaledTerm[],
  entries: readonly FactorEntry[],
  residual: ResidualProducts,
  moments: MomentEquations | undefined,
): Float64Array {
  const found = moments && momentStart(terms, moments);
  const factors = found ?? entries.map(({ row, column }) => (row === column ? 1 : 0));
  return Float64Array.from([...factors, ...residual.start]);
}

/** Larger terms are eliminated first: a nested term has at least as many levels as the one that it lies in. */
function byLevels(terms: readonly ScaledTerm[]): ScaledTerm[] {
  return [...terms].sort((a, b) => b.grouping.levels.length - a.grouping.levels.length);
}

/** The position of each of the model's terms among those of the problem. */
export function termOrder(groupings: readonly Grouping[]): number[] {
  const counts = groupings.map(({ levels }) => levels.length);
  const order = counts.map((_, at) => at).sort((a, b) => counts[b]! - counts[a]!);
  return counts.map((_, at) => order.indexOf(at));
}

function termOf(term: RandomTerm, groups: Grouping): ScaledTerm {
  const columns = term.columns?.map(({ values }) => values) ?? [term.groups.map(() => 1)];
  const scaled = scaledTerm(groups, columns, term.covariance === 'diagonal');
  // A column with less of its own than this is made of the others and rounding.
  if (scaled.independence < 1e-9) {
    throw new StatisticsError(
      'fitMixedModel',
      'collinear',
      `needs columns that do not repeat one another in random term "${term.name}"; remove one that is zero or a combination of others`,
    );
  }
  return scaled;
}

function tailRows(model: MixedModel, ordinary: LeastSquaresFit, scale: number): Float64Array {
  const { rank, inverseFactor } = ordinary;
  const width = rank + 1;
  const rows = model.response.length;
  const tail = new Float64Array(rows * width);
  for (let from = 0; from < rank; from++) {
    const { values } = model.fixed.columns[from]!;
    for (let row = 0; row < rows; row++) {
      const value = values[row]!;
      if (value === 0) continue;
      for (let column = from; column < rank; column++)
        tail[row * width + column]! += inverseFactor[from * rank + column]! * value;
    }
  }
  for (let row = 0; row < rows; row++) tail[row * width + width - 1] = ordinary.residuals[row]! / scale;
  return tail;
}

function logDeterminant(triangle: Float64Array, size: number): number {
  let sum = 0;
  for (let k = 0; k < size; k++) sum += Math.log(Math.abs(triangle[k * size + k]!));
  return sum;
}
