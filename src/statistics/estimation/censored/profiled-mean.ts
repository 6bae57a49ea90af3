import { newtonInBracket, type ValueAndSlope } from '../../numerics/root-finding/newton-in-bracket.js';
import type { SplitCensored } from './left-censored.js';
import { halfLogTwoPi, normalBelow } from './normal-below.js';

/** The least minus log-likelihood with the mean held at a value, and how it changes with the value. */
export interface ProfiledMean {
  readonly loss: number;
  readonly slope: number;
}

/**
 * The profile of minus the log-likelihood by the mean of normal values, some known only to lie below limits; or, with a lift, by
 * location + lift times spread squared, which for logarithms in the right unit is the logarithm of the lognormal mean.
 *
 * Held at a value, the loss is a function of the spread alone. Below the most likely mean it has one valley: the likelihood is
 * concave in location over spread and one over spread, and the means not above a value are a convex set of those. So it has above
 * it, without a lift. With a lift there can be several valleys above it; all are sought and the lowest is taken.
 *
 * @param data about the mean of the measured values
 * @param best the most likely mean, and the logarithm of one over the spread there
 * @returns by the held mean, other than the most likely
 */
export function profiledMean(
  data: SplitCensored,
  lift: number,
  best: { readonly held: number; readonly logPrecision: number },
): (held: number) => ProfiledMean {
  let nearby = best.logPrecision;
  return (held) => {
    const at = lossHeld(data, lift, held);
    if (held > best.held && lift > 0) {
      const bottoms = valleys(at, range(data, lift, held));
      nearby = bottoms.reduce((low, point) => (at(point).loss < at(low).loss ? point : low));
    } else if (held !== best.held)
      nearby = newtonInBracket(at, nearby, outside(at, nearby, -1), outside(at, nearby, 1));
    const { loss, byHeld } = at(nearby);
    return { loss, slope: byHeld };
  };
}

/** The loss by the logarithm of one over the spread, with two derivatives, and the derivative by the held mean. */
interface HeldLoss extends ValueAndSlope {
  readonly loss: number;
  readonly byHeld: number;
}

type Loss = (logPrecision: number) => HeldLoss;

function lossHeld({ measured, limits }: SplitCensored, lift: number, held: number): Loss {
  const squares = sumOfSquares(measured);
  return (logPrecision) => {
    const precision = Math.exp(logPrecision);
    const scaled = precision * held - lift / precision;
    // What the lift adds as the precision changes.
    const drift = (2 * lift) / precision;
    const sum = -measured.length * scaled;
    const own = precision ** 2 * squares + measured.length * scaled ** 2;
    let loss = measured.length * (halfLogTwoPi - logPrecision) + own / 2;
    let byHeld = -sum;
    let value = own - drift * sum - measured.length;
    let slope = 2 * own - 2 * drift * sum + measured.length * drift ** 2;
    for (const limit of limits) {
      const z = precision * limit - scaled;
      const below = normalBelow(z);
      loss -= below.log;
      byHeld += below.hazard;
      value -= below.hazard * (z - drift);
      slope += below.bend * (z - drift) ** 2 - below.hazard * z;
    }
    return { loss, value, slope, byHeld: precision * byHeld };
  };
}

/** A point to one side at which the slope has the sign of that side. */
function outside(at: Loss, from: number, side: -1 | 1): number {
  let reach = 0.5;
  while (!(side * at(from + side * reach).value > 0)) reach *= 2;
  return from + side * reach;
}

/** The bottoms of all valleys in a range; no valley is as narrow as the step. */
function valleys(at: Loss, { low, high }: { readonly low: number; readonly high: number }): number[] {
  const steps = Math.ceil((high - low) / 0.125);
  const points = Array.from({ length: steps + 1 }, (_, step) => low + ((high - low) * step) / steps);
  const rising = points.map((point) => at(point).value >= 0);
  return points.flatMap((point, step) => {
    const next = points[step + 1];
    if (next === undefined || rising[step] || !rising[step + 1]) return [];
    return [newtonInBracket(at, (point + next) / 2, point, next)];
  });
}

/**
 * Where all valleys must lie, with a lift: below the range each measured value pulls the slope down by more than the rest can lift
 * it, above it the squares of the measured values outweigh everything. A density over its tail is below 0.8 for points above 0, and
 * below 0.3 over the point.
 */
function range({ measured, limits }: SplitCensored, lift: number, held: number) {
  const squares = sumOfSquares(measured);
  const n = measured.length;
  const farthest = limits.reduce((most, limit) => Math.max(most, Math.abs(limit - held)), 0);
  const lowest = Math.min(
    (lift * n) / (3.2 * Math.max(1, limits.length)),
    Math.sqrt(lift / Math.max(farthest, Number.MIN_VALUE)),
    ((lift ** 2 * n) / (2 * (squares + n * held ** 2))) ** 0.25,
  );
  const linear = (2 * lift * n * Math.abs(held) + n + 0.3 * limits.length) / squares;
  const highest = (linear + Math.sqrt(linear ** 2 + (8 * lift ** 2 * n) / squares)) / 2;
  return { low: Math.log(lowest), high: Math.log(highest) / 2 };
}

function sumOfSquares(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value * value, 0);
}
