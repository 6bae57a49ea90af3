import { checkLevel, checkSample } from '../../checked-input.js';
import { studentT } from '../../distributions/student-t.js';
import type { Interval } from '../../interval.js';
import { leastSquares } from '../../models/linear/least-squares.js';
import { StatisticsError } from '../../statistics-error.js';
import { leastBetween } from './least-between.js';

export interface BentCurveData {
  readonly x: readonly number[];
  readonly response: readonly number[];
  /** What the response is straight in up to the bend, increasing in x; x itself unless told. */
  readonly before?: (x: number) => number;
  /** What it is straight in after the bend, increasing in x; x itself unless told. */
  readonly after?: (x: number) => number;
}

export interface Slope {
  readonly estimate: number;
  readonly standardError: number;
  readonly interval: Interval;
}

/** Two straight pieces that meet. */
export interface BentCurve {
  readonly bend: number;
  /**
   * Every bend whose least sum of squares is not much worse, by Student's t; where pieces of the range qualify, from the first to
   * the last. A limit at an end of the range searched says that the data do not limit the bend to that side.
   */
  readonly bendInterval: Interval;
  /** Response at the bend. */
  readonly atBend: number;
  readonly slopeBefore: Slope;
  readonly slopeAfter: Slope;
  /** Observations less 4. */
  readonly degreesOfFreedom: number;
  readonly residualSumOfSquares: number;
  /** The bends that were searched: at least two different x lie on either side of each. */
  readonly searched: { readonly from: number; readonly to: number };
}

const WHERE = 'bentCurve';
const PER_GAP = 6;

/**
 * Least squares of two straight pieces that meet at a bend to be found: the bend is searched between all neighbouring x, its
 * interval is that of the profile of the sum of squares. Standard errors of the slopes allow for the bend's being estimated.
 *
 * @param level of the intervals, defaults to 0.95
 * @throws StatisticsError `too-few` below six observations or four different x, `lengths-differ`, `not-finite`, `no-variation`
 *   where no residual is left, `out-of-range`
 * @example bentCurve({ x: [0, 1, 2, 3, 4, 5, 6], response: [0.1, 1, 1.9, 3.1, 3.2, 3.0, 3.1] }).bend // 3.18
 * @source the profile as in Seber and Wild 1989, Nonlinear Regression, section 9.3 (from memory)
 */
export function bentCurve(data: BentCurveData, options: { readonly level?: number } = {}): BentCurve {
  const level = options.level ?? 0.95;
  checkLevel(WHERE, level);
  checkData(data);
  const x = [...new Set(data.x)].sort((one, other) => one - other);
  const [from, to] = [x[1]!, x.at(-2)!];
  const sumAt = (bend: number) => fitAt(data, bend).residualSumOfSquares;
  const knots = x.slice(1, -1);
  const gaps = knots.slice(1).map((right, k) => leastBetween(sumAt, knots[k]!, right));
  const best = [...gaps, ...knots.map((point) => ({ point, value: sumAt(point) }))].reduce((least, one) =>
    one.value < least.value ? one : least,
  );
  const size = data.response.reduce((sum, value) => sum + value * value, 0);
  // Residuals of 1e-12 of the response are its rounding.
  if (!(best.value > 1e-24 * size))
    throw new StatisticsError(WHERE, 'no-variation', 'needs residuals that are not all zero');
  const degreesOfFreedom = data.x.length - 4;
  const reach = studentT(degreesOfFreedom).upperQuantile((1 - level) / 2);
  const limit = best.value * (1 + reach ** 2 / degreesOfFreedom);
  const bend = best.point;
  const grid = [...gridOf(knots), bend].sort((one, other) => one - other);
  const inside = grid.filter((point) => point === bend || sumAt(point) <= limit);
  const lower = outward(sumAt, { limit, inside: inside[0]!, outside: grid[grid.indexOf(inside[0]!) - 1] });
  const upper = outward(sumAt, { limit, inside: inside.at(-1)!, outside: grid[grid.indexOf(inside.at(-1)!) + 1] });
  return {
    bend,
    bendInterval: { level, lower, upper },
    ...slopesAt(data, bend, { variance: best.value / degreesOfFreedom, reach, level }),
    degreesOfFreedom,
    residualSumOfSquares: best.value,
    searched: { from, to },
  };
}

const itself = (x: number) => x;

function columnsAt({ x, before = itself, after = itself }: BentCurveData, bend: number) {
  return [
    { name: 'level', values: x.map(() => 1) },
    { name: 'before', values: x.map((at) => before(Math.min(at, bend)) - before(bend)) },
    { name: 'after', values: x.map((at) => after(Math.max(at, bend)) - after(bend)) },
  ];
}

function fitAt(data: BentCurveData, bend: number) {
  return leastSquares({ columns: columnsAt(data, bend) }, data.response);
}

/** A move of the bend lifts or lowers all that comes after it alike, so that a step there stands for its uncertainty. */
function slopesAt(
  data: BentCurveData,
  bend: number,
  { variance, reach, level }: { readonly variance: number; readonly reach: number; readonly level: number },
) {
  const { coefficients } = fitAt(data, bend);
  const step = { name: 'step', values: data.x.map((at) => (at > bend ? 1 : 0)) };
  const { unscaledCovariance } = leastSquares({ columns: [...columnsAt(data, bend), step] }, data.response);
  const slope = (k: number): Slope => {
    const { estimate } = coefficients[k]!;
    const standardError = Math.sqrt(variance * unscaledCovariance[k * 5]!);
    const interval = { level, lower: estimate - reach * standardError, upper: estimate + reach * standardError };
    return { estimate, standardError, interval };
  };
  return { atBend: coefficients[0]!.estimate, slopeBefore: slope(1), slopeAfter: slope(2) };
}

function gridOf(knots: readonly number[]): readonly number[] {
  const inner = knots.slice(1).flatMap((right, k) => {
    const left = knots[k]!;
    return Array.from({ length: PER_GAP }, (_, part) => left + ((right - left) * part) / PER_GAP);
  });
  return [...inner, knots.at(-1)!];
}

interface Crossing {
  readonly limit: number;
  readonly inside: number;
  /** Nothing where the grid ends. */
  readonly outside: number | undefined;
}

/** Where the sum reaches the limit between a point inside and its neighbour outside, by bisection. */
function outward(sumAt: (bend: number) => number, { limit, inside, outside }: Crossing): number {
  if (outside === undefined) return inside;
  let [near, far] = [inside, outside];
  for (let step = 0; step < 60 && Math.abs(far - near) > 1e-12 * Math.abs(far); step++) {
    const middle = (near + far) / 2;
    if (sumAt(middle) <= limit) near = middle;
    else far = middle;
  }
  return near;
}

function checkData({ x, response }: BentCurveData): void {
  checkSample(WHERE, 'x', x, 6);
  checkSample(WHERE, 'response', response, 6);
  if (x.length !== response.length) {
    const detail = `needs one response for every x, got ${response.length} for ${x.length}`;
    throw new StatisticsError(WHERE, 'lengths-differ', detail);
  }
  const different = new Set(x).size;
  if (different >= 4) return;
  throw new StatisticsError(WHERE, 'too-few', `needs at least 4 different x, two on either side, got ${different}`);
}
