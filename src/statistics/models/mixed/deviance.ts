import { eliminate } from './block-cholesky.js';
import type { BlockLayout } from './block-layout.js';
import type { EliminationOrder } from './elimination-order.js';
import { type FactorEntry, relativeFactors } from './relative-factor.js';
import type { ResidualProducts, ResidualWeights } from './residual-products.js';
import type { ScaledTerm } from './scaled-term.js';
import { type DerivedElimination, pivotDerivatives } from './selected-inverse.js';

/**
 * Everything that a trial of the variance parameters needs. Its size depends on levels and columns, not on the
 * observations. Parameters are the entries of the relative covariance factors, then those of the residual structure;
 * all are unbounded.
 */
export interface DevianceProblem {
  readonly layout: BlockLayout;
  readonly terms: readonly ScaledTerm[];
  readonly entries: readonly FactorEntry[];
  readonly residual: ResidualProducts;
  readonly order: EliminationOrder;
  /** Where the search begins. */
  readonly start: Float64Array;
  readonly method: 'reml' | 'ml';
  readonly observations: number;
  readonly fixedEffects: number;
  /** Added to the deviance: what scaling the response and turning the fixed columns have taken out of it. */
  readonly constant: number;
  readonly workspace: Workspace;
}

/** Memory for one trial at a time. */
export type Workspace = DerivedElimination;

/** One trial. The workspace of the problem holds its factor until the next. */
interface DevianceAlone {
  /** Minus twice the (restricted) log-likelihood. */
  readonly deviance: number;
  /** Penalised residual sum of squares of the scaled response. */
  readonly squares: number;
  /** Residual variance of the scaled response: the sum of squares over its degrees of freedom, unless it was given. */
  readonly variance: number;
  /** The most that a fixed column or the response had lost of its square when its turn came, as a ratio: some squared ratio of what units differ by to the residual. */
  readonly cancelled: number;
  /** What rounding may have made of the deviance. */
  readonly rounding: number;
  readonly factors: readonly Float64Array[];
  readonly weights: ResidualWeights;
}

export interface Trial extends DevianceAlone {
  readonly gradient: Float64Array;
}

export function workspace(length: number): Workspace {
  return {
    products: new Float64Array(length),
    factor: new Float64Array(length),
    derivatives: new Float64Array(length),
  };
}

/** Observations, less the fixed effects under restricted likelihood: what the residual sum of squares is divided by. */
export function divisor({ method, observations, fixedEffects }: DevianceProblem): number {
  return method === 'reml' ? observations - fixedEffects : observations;
}

/** The factor stands in the workspace. */
interface Factorised {
  readonly factors: readonly Float64Array[];
  readonly weights: ResidualWeights;
  /** Squares of the fixed columns and the response, before anything was taken out of them. */
  readonly tailSquares: Float64Array;
}

/** Puts the factor at these parameters into the workspace. Returns undefined where there is none. */
export function factoriseAt(problem: DevianceProblem, parameters: ArrayLike<number>): Factorised | undefined {
  const { layout, order, terms, entries, residual, workspace: memory } = problem;
  const factors = relativeFactors(terms, entries, parameters);
  const weights = residual.weigh(Array.from(parameters).slice(entries.length));
  combine(residual.components, weights.weights, memory.products);
  const { denseStart, denseSize, denseEffects, tail } = layout;
  const tailSquares = new Float64Array(tail);
  for (let row = 0; row < tail; row++)
    tailSquares[row] = memory.products[denseStart + (denseEffects + row) * (denseSize + 1)]!;
  return eliminate(memory, layout, order, factors) ? { factors, weights, tailSquares } : undefined;
}

/** What rounding may have made of the deviance where so much had cancelled. */
export function roundingOfDeviance(problem: DevianceProblem, cancelled: number): number {
  return 4 * Number.EPSILON * divisor(problem) * cancelled;
}

/**
 * The deviance, with the fixed effects profiled out, and the residual variance too unless it is given.
 *
 * With the factor's squared pivots split into those of random effects, fixed effects and response, minus twice the
 * log-likelihood is the sum of the first two logarithms (the second under restricted likelihood only) plus `divisor`
 * times (1 + log(2 pi variance)): Bates, Mächler, Bolker and Walker (2015), Journal of Statistical Software 67(1),
 * equations 34 and 41.
 */
export function devianceAlone(
  problem: DevianceProblem,
  parameters: ArrayLike<number>,
  givenVariance?: number,
): DevianceAlone | undefined {
  const answer = factoriseAt(problem, parameters);
  if (answer === undefined) return undefined;
  const { factors, weights, tailSquares } = answer;
  const { workspace: memory, method } = problem;
  const { logEffects, logFixed, squares, cancelled } = pivots(memory.factor, tailSquares, problem);
  const freedom = divisor(problem);
  const variance = givenVariance ?? squares / freedom;
  const logDeterminants = logEffects + (method === 'reml' ? logFixed : 0) + weights.logDeterminant;
  const fit = freedom * Math.log(2 * Math.PI * variance) + squares / variance;
  return {
    ...{ deviance: problem.constant + logDeterminants + fit, squares, variance, cancelled, factors, weights },
    rounding: roundingOfDeviance(problem, cancelled),
  };
}

/** The same with its gradient, which takes as long again. */
export function deviance(
  problem: DevianceProblem,
  parameters: ArrayLike<number>,
  givenVariance?: number,
): Trial | undefined {
  const alone = devianceAlone(problem, parameters, givenVariance);
  if (alone === undefined) return undefined;
  const { squares, variance, factors, weights } = alone;
  const { layout, order, entries, residual, workspace: memory, method } = problem;
  const fixed = method === 'reml' ? 1 : 0;
  const slopes = pivotDerivatives(memory, layout, order, factors, { effects: 1, fixed, response: squares / variance });
  const gradient = new Float64Array(parameters.length);
  entries.forEach(({ term, row, column }, at) => {
    gradient[at] = slopes[term]![row * problem.terms[term]!.size + column]!;
  });
  if (weights.slopes.length > 0) {
    countBothTriangles(layout, memory.derivatives);
    const byWeight = residual.components.map((component) => dot(component, memory.derivatives));
    weights.slopes.forEach((slope, at) => {
      const share = slope.reduce((sum, value, component) => sum + value * byWeight[component]!, 0);
      gradient[entries.length + at] = share + weights.logDeterminantSlopes[at]!;
    });
  }
  return { ...alone, gradient };
}

function combine(components: readonly Float64Array[], weights: readonly number[], sum: Float64Array): void {
  components.forEach((component, at) => {
    const weight = weights[at]!;
    if (at === 0) for (let i = 0; i < sum.length; i++) sum[i] = weight * component[i]!;
    else for (let i = 0; i < sum.length; i++) sum[i]! += weight * component[i]!;
  });
}

/**
 * Doubles what panels hold below their own block, of which the symmetric matrix has another above, so that a plain sum of products with a
 * component is the derivative of that component's weight.
 */
function countBothTriangles(layout: BlockLayout, derivatives: Float64Array): void {
  for (let level = 0; level < layout.frontLevels; level++) {
    const width = layout.termSize[layout.levelTerm[level]!]!;
    const start = layout.panelStart[level]!;
    const end = start + layout.panelHeight[level]! * width;
    for (let at = start + width * width; at < end; at++) derivatives[at]! *= 2;
  }
}

interface Pivots extends Pick<DevianceAlone, 'squares' | 'cancelled'> {
  readonly logEffects: number;
  readonly logFixed: number;
}

function pivots(factor: Float64Array, tailSquares: Float64Array, { layout, order }: DevianceProblem): Pivots {
  const { denseStart, denseSize, denseEffects } = layout;
  let logEffects = 0;
  for (const { levels } of order.alike) logEffects += levels.length * Math.log(factor[layout.panelStart[levels[0]!]!]!);
  for (const level of order.single) {
    const width = layout.termSize[layout.levelTerm[level]!]!;
    for (let k = 0; k < width; k++) logEffects += Math.log(factor[layout.panelStart[level]! + k * (width + 1)]!);
  }
  const pivot = (row: number) => factor[denseStart + row * (denseSize + 1)]!;
  for (let row = 0; row < denseEffects; row++) logEffects += Math.log(pivot(row));
  let logFixed = 0;
  for (let row = denseEffects; row < denseSize - 1; row++) logFixed += Math.log(pivot(row));
  let cancelled = 1;
  for (let row = denseEffects; row < denseSize; row++) {
    cancelled = Math.max(cancelled, tailSquares[row - denseEffects]! / pivot(row) ** 2);
  }
  return { logEffects: 2 * logEffects, logFixed: 2 * logFixed, squares: pivot(denseSize - 1) ** 2, cancelled };
}

function dot(one: Float64Array, other: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < one.length; i++) sum += one[i]! * other[i]!;
  return sum;
}
