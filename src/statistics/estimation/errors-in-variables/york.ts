import { checkedResult, checkLevel, checkPositive, checkSample } from '../../checked-input.js';
import { chiSquare } from '../../distributions/chi-square.js';
import { StatisticsError } from '../../statistics-error.js';
import { extremes } from '../summaries/extremes.js';
import { mean } from '../summaries/mean.js';
import { checkPairs, type MeasuredPairs, sameLength } from './check-pairs.js';
import { type FittedLine, reachOf } from './fitted-line.js';
import { addYorkSums, noYorkSums, type YorkColumns, type YorkState, yorkState } from './york-sums.js';

/** Pairs with the standard uncertainty of every single value. */
export interface UncertainPairs extends MeasuredPairs {
  readonly uncertaintyX: readonly number[];
  readonly uncertaintyY: readonly number[];
  /** Of the two errors of a pair; 0 unless given. */
  readonly correlation?: readonly number[];
}

export interface YorkOptions {
  /** 0.95 unless told. */
  readonly level?: number;
  /**
   * `as-stated` (the default) takes the uncertainties as known; `as-seen` multiplies the line's standard errors by the square
   * root of the mean weighted square about it, for points that scatter more (or less) than their uncertainties say.
   */
  readonly scatter?: 'as-stated' | 'as-seen';
}

export interface YorkLine extends FittedLine {
  readonly kind: 'york';
  /** Weighted sum of squares about the line, and how rarely errors as stated would give more. */
  readonly fit: { readonly chiSquare: number; readonly degreesOfFreedom: number; readonly pValue: number };
}

/**
 * Straight line through pairs of which each value has an uncertainty of its own, by York's unified equations: the least sum
 * of weighted squares with weights 1/(σy² + b²σx² − 2bρσxσy) that depend on the slope b itself.
 *
 * @throws StatisticsError `too-few` below three pairs, `no-variation`, `out-of-range` for uncertainties that are not positive,
 *   `not-converged` where x and y are not related enough to fix a slope
 * @example
 * const [weightsOfX, weightsOfY] = [[1000, 1000, 500, 800, 200, 80, 60, 20, 1.8, 1], [1, 1.8, 4, 8, 20, 20, 70, 70, 100, 500]];
 * const uncertainties = (weights) => weights.map((weight) => 1 / Math.sqrt(weight));
 * york({
 *   x: [0, 0.9, 1.8, 2.6, 3.3, 4.4, 5.2, 6.1, 6.5, 7.4],
 *   y: [5.9, 5.4, 4.4, 4.6, 3.5, 3.7, 2.8, 2.8, 2.4, 1.5],
 *   uncertaintyX: uncertainties(weightsOfX),
 *   uncertaintyY: uncertainties(weightsOfY),
 * }).slope // -0.4805, Pearson's data with York's weights
 * @source York, Evensen, López Martínez & De Basabe Delgado 2004, Am. J. Phys. 72:367-375 (from memory)
 */
export function york(pairs: UncertainPairs, options: YorkOptions = {}): YorkLine {
  const { level = 0.95, scatter = 'as-stated' } = options;
  const where = 'york';
  checkLevel(where, level);
  const { columns, centre } = yorkColumns(where, pairs);
  const n = pairs.x.length;
  const { least, greatest } = extremes(pairs.x);
  const { slope, state } = solveYork(where, columns);
  const freedom = n - 2;
  const sum = weightedSquares(columns, slope, state);
  const factor = scatter === 'as-seen' ? sum / freedom : 1;
  const reach = reachOf(where, level, scatter === 'as-seen' ? freedom : undefined);
  const { adjustedMean, adjustedSpread } = adjustedPoints(columns, slope, state);
  const varianceOfSlope = factor / adjustedSpread;
  const ownCentre = { x: centre.x + adjustedMean, y: centre.y + state.level + slope * adjustedMean };
  const intercept = ownCentre.y - slope * ownCentre.x;
  const around = (value: number, variance: number) => {
    const half = reach * Math.sqrt(variance);
    return { level, lower: value - half, upper: value + half };
  };
  const varianceAtCentre = factor / state.weight;
  return checkedResult(where, {
    kind: 'york',
    slope,
    intercept,
    slopeInterval: around(slope, varianceOfSlope),
    interceptInterval: around(intercept, varianceAtCentre + ownCentre.x ** 2 * varianceOfSlope),
    centre: ownCentre,
    uncertainty: { varianceAtCentre, varianceOfSlope, covariance: 0 },
    ...(scatter === 'as-seen' ? { degreesOfFreedom: freedom } : {}),
    n,
    range: { from: least, to: greatest },
    fit: { chiSquare: sum, degreesOfFreedom: freedom, pValue: chiSquare(freedom).upperTail(sum) },
  });
}

/** Checks the pairs and lays them out as columns about their centre, in the order given by `order`. */
export function yorkColumns(
  where: string,
  pairs: UncertainPairs,
  order?: readonly number[],
): { readonly columns: YorkColumns; readonly centre: FittedLine['centre'] } {
  checkPairs(where, pairs);
  const { x, y, uncertaintyX, uncertaintyY, correlation = x.map(() => 0) } = pairs;
  sameLength(where, 'uncertainties of x', uncertaintyX, x.length);
  sameLength(where, 'uncertainties of y', uncertaintyY, x.length);
  sameLength(where, 'correlations', correlation, x.length);
  checkSample(where, 'correlations', correlation, 3);
  for (const value of uncertaintyX) checkPositive(where, 'uncertainty of x', value);
  for (const value of uncertaintyY) checkPositive(where, 'uncertainty of y', value);
  const wrong = correlation.find((value) => !(Math.abs(value) < 1));
  if (wrong !== undefined)
    throw new StatisticsError(where, 'out-of-range', `needs correlations between -1 and 1, got ${wrong}`);
  const centre = { x: mean(x), y: mean(y) };
  const column = (of: (index: number) => number) => Float64Array.from(order ?? x.keys(), of);
  const columns = {
    x: column((i) => (x[i] as number) - centre.x),
    y: column((i) => (y[i] as number) - centre.y),
    varianceX: column((i) => (uncertaintyX[i] as number) ** 2),
    varianceY: column((i) => (uncertaintyY[i] as number) ** 2),
    covariance: column((i) => (correlation[i] as number) * (uncertaintyX[i] as number) * (uncertaintyY[i] as number)),
  };
  return { columns, centre };
}

const MOST_STEPS = 500;

/** York's iteration from the least squares line, each step lengthened by the secant where that brings it nearer. */
export function solveYork(
  where: string,
  columns: YorkColumns,
): { readonly slope: number; readonly state: YorkState; readonly turn: number } {
  const n = columns.x.length;
  const at = (slope: number) => {
    const sums = noYorkSums();
    addYorkSums(sums, columns, slope, 0, n);
    return yorkState(sums);
  };
  let slope = firstSlope(columns);
  let state = at(slope);
  for (let step = 0; step < MOST_STEPS; step++) {
    const next = slope + state.excess / state.spread;
    if (!Number.isFinite(next)) break;
    if (Math.abs(next - slope) <= 1e-15 * Math.abs(next))
      return { slope: next, state: at(next), turn: turnAt(at, next) };
    const there = at(next);
    const turn = (there.excess - state.excess) / (next - slope);
    const jump = next - there.excess / turn;
    const beyond = turn < 0 && Number.isFinite(jump) ? at(jump) : there;
    if (Math.abs(beyond.excess) < Math.abs(there.excess)) [slope, state] = [jump, beyond];
    else if (Math.abs(there.excess) >= Math.abs(state.excess) && Math.abs(next - slope) <= 1e-12 * Math.abs(next))
      return { slope, state, turn: turnAt(at, slope) };
    else [slope, state] = [next, there];
  }
  const detail = `needs x and y that are related, got no slope after ${MOST_STEPS} steps; take pairs over a wider range`;
  throw new StatisticsError(where, 'not-converged', detail);
}

/** The derivative of the excess by the slope, for Newton's steps on fits that lie near. */
function turnAt(at: (slope: number) => YorkState, slope: number): number {
  const step = 1e-5 * Math.max(Math.abs(slope), 1e-12);
  return (at(slope + step).excess - at(slope - step).excess) / (2 * step);
}

/** Least squares of y on x, weighted by the uncertainties of y alone. */
function firstSlope({ x, y, varianceY }: YorkColumns): number {
  let [w, wx, wy, wxx, wxy] = [0, 0, 0, 0, 0];
  for (let i = 0; i < x.length; i++) {
    const weight = 1 / (varianceY[i] as number);
    const [xi, yi] = [x[i] as number, y[i] as number];
    w += weight;
    wx += weight * xi;
    wy += weight * yi;
    wxx += weight * xi * xi;
    wxy += weight * xi * yi;
  }
  return (wxy - (wx * wy) / w) / (wxx - (wx * wx) / w);
}

function weightedSquares(columns: YorkColumns, slope: number, { level }: YorkState): number {
  let sum = 0;
  for (let i = 0; i < columns.x.length; i++) {
    const residual = (columns.y[i] as number) - level - slope * (columns.x[i] as number);
    sum += residual * residual * weightOf(columns, slope, i);
  }
  return sum;
}

/** The points as the line adjusts them: their weighted mean and spread give the uncertainties. */
function adjustedPoints(columns: YorkColumns, slope: number, { meanX, level, weight }: YorkState) {
  const n = columns.x.length;
  const adjusted = new Float64Array(n);
  let sum = 0;
  for (let i = 0; i < n; i++) {
    const w = weightOf(columns, slope, i);
    const along = (columns.x[i] as number) - meanX;
    const residual = (columns.y[i] as number) - level - slope * (columns.x[i] as number);
    const bend = slope * (columns.varianceX[i] as number) - (columns.covariance[i] as number);
    adjusted[i] = meanX + along + w * bend * residual;
    sum += w * (adjusted[i] as number);
  }
  const adjustedMean = sum / weight;
  let adjustedSpread = 0;
  for (let i = 0; i < n; i++)
    adjustedSpread += weightOf(columns, slope, i) * ((adjusted[i] as number) - adjustedMean) ** 2;
  return { adjustedMean, adjustedSpread };
}

function weightOf({ varianceX, varianceY, covariance }: YorkColumns, slope: number, i: number): number {
  const c = covariance[i] as number;
  return 1 / ((varianceY[i] as number) + slope * (slope * (varianceX[i] as number) - 2 * c));
}
