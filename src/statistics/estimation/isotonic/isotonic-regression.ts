import { checkPositive, checkSample } from '../../checked-input.js';
import { StatisticsError } from '../../statistics-error.js';

export type IsotonicDirection = 'increasing' | 'decreasing';

export interface IsotonicData {
  readonly x: readonly number[];
  readonly response: readonly number[];
  /** Positive, one for every observation; all 1 unless given. */
  readonly weights?: readonly number[];
}

/** A stretch of x over which the fit is level. */
export interface IsotonicLevel {
  readonly from: number;
  readonly to: number;
  readonly value: number;
  readonly weight: number;
}

export interface IsotonicFit {
  readonly direction: IsotonicDirection;
  /** The different x, upward. */
  readonly x: readonly number[];
  /** The fit at each of them. */
  readonly fitted: readonly number[];
  readonly levels: readonly IsotonicLevel[];
  /** Weighted, over all observations. */
  readonly residualSumOfSquares: number;
}

const where = 'isotonicRegression';

/**
 * Weighted least squares among all curves that never fall (or never rise), by pooling adjacent violators.
 *
 * Use it where only the direction of a relation is known. Observations at the same x share one fitted value. The fit assumes
 * nothing else: it follows noise at both ends, and carries no interval of its own.
 *
 * @throws StatisticsError `too-few` without observations, `lengths-differ`, `not-finite`, `out-of-range` for weights not above zero
 * @example isotonicRegression({ x: [1, 2, 3, 4], response: [1, 3, 2, 5] }, 'increasing').fitted // [1, 2.5, 2.5, 5]
 * @source Barlow, Bartholomew, Bremner and Brunk, Statistical Inference under Order Restrictions (1972), section 1.2 (from memory)
 */
export function isotonicRegression(data: IsotonicData, direction: IsotonicDirection): IsotonicFit {
  const { x, response, weights = x.map(() => 1) } = data;
  checkSample(where, 'x', x, 1);
  checkSample(where, 'the response', response, 1);
  checkSample(where, 'the weights', weights, 1);
  if (response.length !== x.length || weights.length !== x.length) {
    const got = `${x.length} x, ${response.length} responses and ${weights.length} weights`;
    throw new StatisticsError(where, 'lengths-differ', `needs one response and one weight for every x, got ${got}`);
  }
  for (const weight of weights) checkPositive(where, 'weight', weight);
  const sign = direction === 'increasing' ? 1 : -1;
  const points = pointsUpward(x, response, weights);
  const levels = pooled(points, sign);
  const fitted = levels.flatMap(({ value, members }) => Array<number>(members).fill(value));
  const valueAt = new Map(points.map((point, index) => [point.from, fitted[index]!]));
  const squares = response.map((value, row) => weights[row]! * (value - valueAt.get(x[row]!)!) ** 2);
  return {
    direction,
    x: points.map((point) => point.from),
    fitted,
    levels: levels.map(({ from, to, value, weight }) => ({ from, to, value, weight })),
    residualSumOfSquares: squares.reduce((sum, square) => sum + square, 0),
  };
}

interface Pool extends IsotonicLevel {
  readonly members: number;
}

/** One point for every different x. */
function pointsUpward(x: readonly number[], response: readonly number[], weights: readonly number[]): Pool[] {
  const order = [...x.keys()].sort((one, other) => x[one]! - x[other]!);
  const points: Pool[] = [];
  for (const row of order) {
    const point = { from: x[row]!, to: x[row]!, value: response[row]!, weight: weights[row]!, members: 1 };
    const last = points.at(-1);
    if (last?.from === point.from) points[points.length - 1] = { ...joined(last, point), members: 1 };
    else points.push(point);
  }
  return points;
}

function pooled(points: readonly Pool[], sign: number): Pool[] {
  const pools: Pool[] = [];
  for (const point of points) {
    let pool = point;
    for (let last = pools.at(-1); last !== undefined && sign * (last.value - pool.value) >= 0; last = pools.at(-1)) {
      pools.pop();
      pool = joined(last, pool);
    }
    pools.push(pool);
  }
  return pools;
}

function joined(left: Pool, right: Pool): Pool {
  const weight = left.weight + right.weight;
  return {
    from: left.from,
    to: right.to,
    value: left.value + (right.weight / weight) * (right.value - left.value),
    weight,
    members: left.members + right.members,
  };
}
