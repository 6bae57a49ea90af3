import { exponentialRemainder } from '../special-functions/exponential-remainder.js';
import { stirlingExcess } from '../special-functions/stirling-excess.js';
import { StatisticsError } from '../statistics-error.js';

/** Averages a positive function of s and log s over the distribution of s; `logCentre` is where the product peaks. */
export type ChiMixture = (
  conditional: (s: number, logScale: number) => number,
  logCentre: number,
  width: number,
) => number;

/**
 * Mean of a function of s, where df * s^2 follows a chi-square distribution: a standard deviation over its true value.
 *
 * The integral over log s has an integrand that is analytic, has one peak and dies away on both sides, so the plain
 * trapezoidal rule converges faster than any power of its step. The step starts at the width given and is halved
 * until two sums agree to 1e-11, which leaves the last one exact to rounding. Far to the left s no longer matters, the
 * terms are a geometric series, and its sum is added in closed form: otherwise few degrees of freedom would need
 * millions of points.
 *
 * @param logNegligible log s below which the conditional function has stopped changing
 */
export function chiMixture(degreesOfFreedom: number, logNegligible: number): ChiMixture {
  const half = degreesOfFreedom / 2;
  const peak = Math.sqrt((2 * half) / Math.PI) * Math.exp(-stirlingExcess(half));
  const flatBelow = Math.min(logNegligible, -20);

  return (conditional, logCentre, width) => {
    const integrand = (u: number): number => {
      const weight = Math.exp(-half * exponentialRemainder(2 * u));
      return weight === 0 ? 0 : weight * conditional(Math.exp(u), u);
    };
    /** Terms at origin, origin + step, ... until they no longer count. */
    const rightSum = (origin: number, step: number, floor: number): number => {
      let sum = 0;
      for (let k = 0; ; k++) {
        const term = integrand(origin + k * step);
        sum += term;
        if (term <= (sum + floor) * 1e-18) return sum;
      }
    };
    const leftSum = (origin: number, step: number, floor: number): number => {
      let sum = 0;
      for (let k = 0; ; k++) {
        const u = origin - k * step;
        const term = integrand(u);
        sum += term;
        if (term <= (sum + floor) * 1e-18) return sum;
        if (u < flatBelow) return sum + term / Math.expm1(degreesOfFreedom * step);
      }
    };
    const centre = climb(integrand, logCentre, width);
    let step = width;
    let sum = rightSum(centre, step, 0);
    sum += leftSum(centre - step, step, sum);
    if (sum === 0) return 0;
    for (let halving = 0; halving < 14; halving++) {
      let between = rightSum(centre + step / 2, step, sum);
      between += leftSum(centre - step / 2, step, sum);
      const change = Math.abs(between - sum);
      sum += between;
      step /= 2;
      // The second term forgives the coarse spacing of doubles below 1e-308.
      if (change <= 1e-11 * sum + 1e-318) return peak * step * sum;
    }
    throw new StatisticsError('chiMixture', 'not-converged', `needs a finer step at df = ${degreesOfFreedom}`);
  };
}

/** Walks uphill from a point in steps of the given width, so that sums outward from there fall on both sides. */
function climb(integrand: (u: number) => number, start: number, width: number): number {
  let point = start;
  let value = integrand(point);
  const direction = integrand(point + width) > value ? 1 : -1;
  for (let stride = width; ; stride *= 1.5) {
    const next = integrand(point + direction * stride);
    if (next <= value) return point;
    point += direction * stride;
    value = next;
  }
}
