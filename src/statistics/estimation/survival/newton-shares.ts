import { inverse } from '../../numerics/matrix/square-matrix.js';

/** For each observation, the pieces into which it may fall. */
export interface Mixture {
  readonly holds: readonly (readonly number[])[];
  readonly pieces: number;
}

/** Derivatives of the log-likelihood, the sum over observations of the logarithm of what their pieces share. */
export function slopes({ holds, pieces }: Mixture, shares: Float64Array): Float64Array {
  const sums = new Float64Array(pieces);
  for (const own of holds) {
    const part = 1 / whole(own, shares);
    for (const k of own) sums[k]! += part;
  }
  return sums;
}

/**
 * Shares after one of Newton's steps in which none falls below 0, shortened until the likelihood rises; the same shares where no
 * such step raises it. That they sum to 1 is ensured by subtracting the number of observations times the sum: at the highest the sum
 * is 1 by itself.
 */
export function newtonShares(mixture: Mixture, shares: Float64Array): Float64Array {
  const target = quadraticPeak(mixture, shares);
  const before = height(mixture, shares);
  for (let part = 1; part > 1e-6; part /= 2) {
    const next = shares.map((share, k) => share + part * (target[k]! - share));
    if (!(height(mixture, next) >= before)) continue;
    const sum = next.reduce((total, share) => total + share);
    return next.map((share) => share / sum);
  }
  return shares;
}

function whole(own: readonly number[], shares: Float64Array): number {
  return own.reduce((sum, k) => sum + shares[k]!, 0);
}

function height({ holds }: Mixture, shares: Float64Array): number {
  const sum = shares.reduce((total, share) => total + share);
  return holds.reduce((total, own) => total + Math.log(whole(own, shares)), -holds.length * sum);
}

/** Shares below this count as none before the step; those that should not be are let in again. */
const VANISHING = 1e-5;
/** Keeps pieces that no observation distinguishes where they are. */
const RIDGE = 1e-11;

/**
 * Where the parabola that touches the log-likelihood at the shares is highest among shares of 0 or more: least squares with
 * non-negative coefficients (Lawson and Hanson, Solving Least Squares Problems, 1974, ch. 23).
 */
function quadraticPeak(mixture: Mixture, shares: Float64Array): Float64Array {
  const { holds, pieces } = mixture;
  const curvature = new Float64Array(pieces * pieces);
  for (const own of holds) {
    const part = whole(own, shares) ** -2;
    for (const row of own) for (const column of own) curvature[row * pieces + column]! += part;
  }
  const ridge = RIDGE * holds.length;
  for (let k = 0; k < pieces; k++) curvature[k * (pieces + 1)]! += ridge;
  const slope = slopes(mixture, shares);
  const wanted = shares.map((share, k) => 2 * slope[k]! - holds.length + ridge * share);
  let free = [...shares.keys()].filter((k) => shares[k]! > VANISHING);
  let peak: Float64Array = shares.map((share) => (share > VANISHING ? share : 0));
  for (let step = 0; step < 3 * pieces + 10; step++) {
    ({ peak, free } = settled(curvature, wanted, peak, free));
    const entering = steepest(curvature, wanted, peak, free, 1e-13 * holds.length);
    if (entering === undefined) break;
    free = [...free, entering];
  }
  return peak;
}

/** The highest point over the free shares; those that would fall below 0 on the way are held there. */
function settled(curvature: Float64Array, wanted: Float64Array, from: Float64Array, candidates: readonly number[]) {
  let [peak, free] = [from, [...candidates]];
  for (;;) {
    const goal = solved(curvature, wanted, free);
    let reach = 1;
    free.forEach((k, at) => {
      if (goal[at]! <= 0) reach = Math.min(reach, peak[k]! / (peak[k]! - goal[at]!));
    });
    const next = new Float64Array(peak.length);
    free.forEach((k, at) => {
      const share = peak[k]! + reach * (goal[at]! - peak[k]!);
      // What reached 0 is held there, also where rounding left a little.
      if (goal[at]! > 0 || share > 1e-15) next[k] = Math.max(0, share);
    });
    peak = next;
    if (reach === 1) return { peak, free };
    free = free.filter((k) => peak[k]! > 0);
  }
}

function solved(curvature: Float64Array, wanted: Float64Array, free: readonly number[]): Float64Array {
  const size = free.length;
  const pieces = wanted.length;
  const part = new Float64Array(size * size);
  free.forEach((row, i) => {
    free.forEach((column, j) => {
      part[i * size + j] = curvature[row * pieces + column]!;
    });
  });
  const inverted = inverse(part, size);
  return Float64Array.from({ length: size }, (_, i) => {
    let sum = 0;
    for (let j = 0; j < size; j++) sum += inverted[i * size + j]! * wanted[free[j]!]!;
    return sum;
  });
}

/** The held share that would raise the parabola most. */
function steepest(
  curvature: Float64Array,
  wanted: Float64Array,
  peak: Float64Array,
  free: readonly number[],
  least: number,
): number | undefined {
  const held = new Set(peak.keys());
  for (const k of free) held.delete(k);
  let [best, most]: [number | undefined, number] = [undefined, least];
  for (const k of held) {
    let rise = wanted[k]!;
    for (const j of free) rise -= curvature[k * peak.length + j]! * peak[j]!;
    if (rise > most) [best, most] = [k, rise];
  }
  return best;
}
