import { checkFinite, checkNotNegative } from '../checked-quantity.js';
import { MoistureError } from '../moisture-error.js';
import type { OvenWeighing } from './oven-weighing.js';

/** What a sample has still to lose at its last weighing. */
export type MassStillToLose =
  | { readonly kind: 'extrapolated'; readonly mass_g: number }
  | {
      readonly kind: 'not-known';
      readonly because: 'too-few-weighings' | 'loss-not-slowing' | 'gained-mass';
    };

/**
 * What is still in a sample at its last weighing, by geometric decay: with m = m∞ + A e^(−t/τ) through the last three weighings, and Δ₁, Δ₂
 * their intervals, the losses d₁ and d₂ give τ by d₂/d₁ = (1 − e^(−Δ₂/τ))/(e^(Δ₁/τ) − 1), and what is left is d₂/(e^(Δ₂/τ) − 1). With equal
 * intervals that is d₂²/(d₁ − d₂).
 *
 * The last change itself is no bound: weighed often enough, a sample changes as little as one likes and is still wet. Nor is this one: the
 * last water leaves more slowly than a single decay, and small losses are as uncertain as the balance.
 *
 * @param weighings in order of time; the last three count
 * @throws MoistureError `not-finite`; `out-of-order` where times do not increase
 * @example massStillToLose([[0, 52], [4, 50.8], [8, 50.2]].map(([time_h, mass_g]) => ({ time_h, mass_g }))) // { kind: 'extrapolated', mass_g: 0.6 }
 * @source own derivation: the sum of a geometric series of losses
 */
export function massStillToLose(weighings: readonly OvenWeighing[]): MassStillToLose {
  const where = 'massStillToLose';
  const [first, second, third] = weighings.slice(-3);
  if (first === undefined || second === undefined || third === undefined)
    return { kind: 'not-known', because: 'too-few-weighings' };
  for (const { time_h, mass_g } of [first, second, third]) {
    checkFinite(where, 'time of weighing', time_h);
    checkFinite(where, 'mass', mass_g);
  }
  const [before_h, last_h] = [second.time_h - first.time_h, third.time_h - second.time_h];
  if (!(before_h > 0 && last_h > 0))
    throw new MoistureError(where, 'out-of-order', `needs weighings in order of time, got ${third.time_h} h last`);
  const [before_g, last_g] = [first.mass_g - second.mass_g, second.mass_g - third.mass_g];
  if (last_g < 0) return { kind: 'not-known', because: 'gained-mass' };
  if (last_g === 0) return { kind: 'extrapolated', mass_g: 0 };
  // Losses that are alike as written differ by the rounding of the masses.
  const rounding = 4 * Number.EPSILON * first.mass_g * (before_h + last_h);
  if (last_g * before_h >= before_g * last_h - rounding) return { kind: 'not-known', because: 'loss-not-slowing' };
  const rate = decayRate(last_g / before_g, before_h, last_h);
  return { kind: 'extrapolated', mass_g: last_g / Math.expm1(rate * last_h) };
}

/** The rate 1/τ at which losses stand in a ratio, by halving: the ratio falls from Δ₂/Δ₁ to 0 as the rate grows. */
function decayRate(ratio: number, before_h: number, last_h: number): number {
  const ratioAt = (rate: number) => -Math.expm1(-rate * last_h) / Math.expm1(rate * before_h);
  let [low, high] = [0, 1 / before_h];
  while (ratioAt(high) > ratio) [low, high] = [high, 2 * high];
  for (let halving = 0; halving < 100; halving++) {
    const middle = (low + high) / 2;
    if (ratioAt(middle) > ratio) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

/**
 * What is still in a sample, in percent of its mass, from its last two changes over equal intervals: c₂²/(c₁ − c₂).
 *
 * @param last_pct between the last two weighings, a loss
 * @param before_pct between the two before, over as long an interval
 * @returns nothing where the loss did not slow down, so that there is no decay to extrapolate
 * @throws MoistureError `out-of-range` for a change below zero, `not-finite`
 * @example changeStillToCome_pct(0.3, 0.5) // 0.45
 * @source as `massStillToLose`
 */
export function changeStillToCome_pct(last_pct: number, before_pct: number): number | undefined {
  const where = 'changeStillToCome_pct';
  checkNotNegative(where, 'last change', last_pct, '%');
  checkNotNegative(where, 'change before it', before_pct, '%');
  if (last_pct === 0) return 0;
  return last_pct < before_pct ? last_pct ** 2 / (before_pct - last_pct) : undefined;
}
