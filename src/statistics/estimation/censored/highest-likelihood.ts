import { StatisticsError } from '../../statistics-error.js';
import type { SplitCensored } from './left-censored.js';
import { normalBelow } from './normal-below.js';

/** Means over the spread, and one over the spread: in these the logarithm of the likelihood is concave. */
export interface CensoredPeak {
  readonly levels: readonly number[];
  readonly precision: number;
}

const MOST_STEPS = 500;
/** Once Newton's step promises less than this share of the likelihood, whole steps double the digits. */
const CLOSE = 1e-9;
/** What such a step promises after its last: the point then moves by less than rounding. */
const SETTLED = 1e-22;

/**
 * Where the likelihood of normal groups with one spread is highest, some of their values known only to lie below limits. Where two
 * values measured in one group differ there is exactly one such point: the function is concave, and falls without end in every direction.
 *
 * Newton's steps, halved while they would lower the likelihood. The end is judged by what a step promises, which rounding of the
 * likelihood does not touch.
 *
 * @param groups each about a centre of its own, in units near their spread
 * @source Olsen 1978, Econometrica 46:1211-1215 (from memory)
 */
export function highestLikelihood(where: string, groups: readonly SplitCensored[]): CensoredPeak {
  let point: CensoredPeak = { levels: groups.map(() => 0), precision: 1 };
  let value = logLikelihood(groups, point);
  for (let step = 0; step < MOST_STEPS; step++) {
    const { move, promise } = newtonStep(groups, point);
    const share = promise / (1 + Math.abs(value));
    if (share < SETTLED) return moved(point, move, 1);
    const next = share < CLOSE ? moved(point, move, 1) : raised(groups, point, move, value);
    if (next === undefined) break;
    point = next;
    value = logLikelihood(groups, point);
  }
  throw new StatisticsError(
    where,
    'not-converged',
    'needs values of a size that doubles can reckon with; give them in another unit',
  );
}

function raised(
  groups: readonly SplitCensored[],
  point: CensoredPeak,
  move: CensoredPeak,
  value: number,
): CensoredPeak | undefined {
  for (let share = 1; share > 1e-12; share /= 2) {
    const next = moved(point, move, share);
    if (next.precision > 0 && logLikelihood(groups, next) > value) return next;
  }
  return undefined;
}

function moved({ levels, precision }: CensoredPeak, move: CensoredPeak, share: number): CensoredPeak {
  return {
    levels: levels.map((level, index) => level + share * move.levels[index]!),
    precision: precision + share * move.precision,
  };
}

function logLikelihood(groups: readonly SplitCensored[], { levels, precision }: CensoredPeak): number {
  let sum = 0;
  for (const [index, { measured, limits }] of groups.entries()) {
    const level = levels[index]!;
    sum += measured.length * Math.log(precision);
    for (const value of measured) sum -= (precision * value - level) ** 2 / 2;
    for (const limit of limits) sum += normalBelow(precision * limit - level).log;
  }
  return sum;
}

function newtonStep(groups: readonly SplitCensored[], { levels, precision }: CensoredPeak) {
  // Every group's level touches only the precision beside itself, so the equations fold into one.
  let [slope, bend, promise] = [0, 0, 0];
  const rows = groups.map(({ measured, limits }, index) => {
    const level = levels[index]!;
    let [gradient, own, cross] = [0, measured.length, 0];
    for (const value of measured) {
      gradient += precision * value - level;
      cross += value;
      slope += 1 / precision - value * (precision * value - level);
      bend += 1 / precision ** 2 + value * value;
    }
    for (const limit of limits) {
      const below = normalBelow(precision * limit - level);
      gradient -= below.hazard;
      own += below.bend;
      cross += limit * below.bend;
      slope += limit * below.hazard;
      bend += limit * limit * below.bend;
    }
    return { gradient, own, cross };
  });
  for (const { gradient, own, cross } of rows) {
    slope += (cross * gradient) / own;
    bend -= (cross * cross) / own;
    promise += gradient ** 2 / own;
  }
  const step = slope / bend;
  const move = { levels: rows.map(({ gradient, own, cross }) => (gradient + cross * step) / own), precision: step };
  return { move, promise: (promise + slope * step) / 2 };
}
