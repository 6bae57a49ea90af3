import { checkedResult, checkFinite } from '../checked-input.js';
import { millsRatio } from '../special-functions/mills-ratio.js';
import { normalDensity, normalUpperTail } from '../special-functions/normal-tails.js';
import { StatisticsError } from '../statistics-error.js';
import { mean } from '../summaries/mean.js';
import type { LeftCensored } from './left-censored.js';

/** Means of several groups that share one spread. */
export interface CensoredGroupMeans {
  /** One for each group, in the order given. */
  readonly groups: readonly CensoredGroup[];
  /** Standard deviation within every group, by maximum likelihood: the divisor is the number of values. */
  readonly spread: number;
}

export interface CensoredGroup {
  readonly mean: number;
  /** What a value below its limit is expected to be, E(X | X < limit); one for each of them, in the order given. */
  readonly expectedBelow: readonly number[];
}

const where = 'censoredGroupMeans';
const MOST_STEPS = 200;

/**
 * Means of groups with values below limits, by maximum likelihood with a normal shape and one spread for all groups: the way
 * where each group has too few values to know a spread of its own. A group's mean is that of its measured values and of what
 * those below their limits are expected to be.
 *
 * @throws StatisticsError `too-few` for a group without a measured value, `no-variation` where no group has two that differ,
 *   `not-finite`, `not-converged`
 * @example
 * const measured = (value) => ({ kind: 'measured', value });
 * censoredGroupMeans([[measured(3), measured(4), { kind: 'below', limit: 2 }], [measured(6), measured(7)]]).groups[0].mean // 2.849
 * @source Tobin 1958, Econometrica 26:24-36, for the likelihood; Olsen 1978, Econometrica 46:1211-1215, for the form in which it
 *   has a single peak (both from memory)
 */
export function censoredGroupMeans(groups: readonly (readonly LeftCensored[])[]): CensoredGroupMeans {
  const own = groups.map(split);
  const centres = own.map(({ measured }) => mean(measured));
  const scale = Math.sqrt(withinSquares(own) / own.reduce((sum, { measured }) => sum + measured.length, 0));
  if (!(scale > 0))
    throw new StatisticsError(where, 'no-variation', 'needs measured values that differ within a group, got none');
  // Each group about its own measured mean, so that groups that lie far apart cost no digits.
  const data = own.map(({ measured, limits }, index) => {
    const inside = (value: number) => (value - (centres[index] as number)) / scale;
    return { measured: measured.map(inside), limits: limits.map(inside) };
  });
  const { levels, precision } = highest(data);
  const spread = scale / precision;
  return checkedResult(where, {
    groups: own.map(({ limits }, index) => {
      const location = (centres[index] as number) + spread * (levels[index] as number);
      return {
        mean: location,
        expectedBelow: limits.map((limit) => location - spread * hazardBelow((limit - location) / spread)),
      };
    }),
    spread,
  });
}

interface Split {
  readonly measured: readonly number[];
  readonly limits: readonly number[];
}

function split(values: readonly LeftCensored[], index: number): Split {
  const measured = values.flatMap((one) => (one.kind === 'measured' ? [one.value] : []));
  const limits = values.flatMap((one) => (one.kind === 'below' ? [one.limit] : []));
  for (const value of [...measured, ...limits]) checkFinite(where, 'value or limit', value);
  if (measured.length === 0)
    throw new StatisticsError(
      where,
      'too-few',
      `needs a measured value in every group, got none in group ${index + 1}`,
    );
  return { measured, limits };
}

function withinSquares(groups: readonly Split[]): number {
  return groups.reduce((sum, { measured }) => {
    const level = mean(measured);
    return measured.reduce((inner, value) => inner + (value - level) ** 2, sum);
  }, 0);
}

/** Means over the spread, and one over the spread: in these the logarithm of the likelihood is concave. In units of `scale`. */
interface Point {
  readonly levels: readonly number[];
  readonly precision: number;
}

/** Newton's steps, halved while they would lower the likelihood. */
function highest(data: readonly Split[]): Point {
  let point: Point = { levels: data.map(() => 0), precision: 1 };
  let value = logLikelihood(data, point);
  for (let step = 0; step < MOST_STEPS; step++) {
    const move = newtonStep(data, point);
    const size = Math.max(Math.abs(move.precision), ...move.levels.map(Math.abs));
    if (size < 1e-9 * (1 + point.precision)) return moved(point, move, 1);
    let share = 1;
    for (;;) {
      const next = moved(point, move, share);
      const there = next.precision > 0 ? logLikelihood(data, next) : Number.NEGATIVE_INFINITY;
      if (there >= value) {
        [point, value] = [next, there];
        break;
      }
      share /= 2;
      // Nothing near is higher: the digits of the likelihood are used up.
      if (share < 1e-8) return point;
    }
  }
  throw new StatisticsError(where, 'not-converged', 'needs more measured values: the likelihood has no clear peak');
}

function moved({ levels, precision }: Point, move: Point, share: number): Point {
  return {
    levels: levels.map((level, index) => level + share * (move.levels[index] as number)),
    precision: precision + share * move.precision,
  };
}

function logLikelihood(data: readonly Split[], { levels, precision }: Point): number {
  let sum = 0;
  for (const [index, { measured, limits }] of data.entries()) {
    const level = levels[index] as number;
    sum += measured.length * Math.log(precision);
    for (const value of measured) sum -= (precision * value - level) ** 2 / 2;
    for (const limit of limits) sum += logLowerTail(precision * limit - level);
  }
  return sum;
}

function newtonStep(data: readonly Split[], { levels, precision }: Point): Point {
  // Every group's level touches only the precision beside itself, so the equations fold into one.
  let [slope, bend] = [0, 0];
  const rows = data.map(({ measured, limits }, index) => {
    const level = levels[index] as number;
    let [gradient, own, cross] = [0, measured.length, 0];
    for (const value of measured) {
      gradient += precision * value - level;
      cross += value;
      slope += 1 / precision - value * (precision * value - level);
      bend += 1 / precision ** 2 + value * value;
    }
    for (const limit of limits) {
      const at = precision * limit - level;
      const hazard = hazardBelow(at);
      const curve = hazard * (at + hazard);
      gradient -= hazard;
      own += curve;
      cross += limit * curve;
      slope += limit * hazard;
      bend += limit * limit * curve;
    }
    return { gradient, own, cross };
  });
  for (const { gradient, own, cross } of rows) {
    slope += (cross * gradient) / own;
    bend -= (cross * cross) / own;
  }
  const step = slope / bend;
  return { levels: rows.map(({ gradient, own, cross }) => (gradient + cross * step) / own), precision: step };
}

/** Density over lower tail of the standard normal distribution. */
function hazardBelow(z: number): number {
  return z > 0 ? normalDensity(z) / normalUpperTail(-z) : 1 / millsRatio(-z);
}

function logLowerTail(z: number): number {
  // The density over the Mills ratio, where the tail itself would vanish.
  return z > 0 ? Math.log(normalUpperTail(-z)) : Math.log(millsRatio(-z)) - (z * z) / 2 - 0.9189385332046727;
}
