import { StatisticsError } from '../../statistics-error.js';

/** Where an integrand has become a pure exponential on its way to minus infinity. */
export interface ExponentialStart {
  readonly below: number;
  readonly rate: number;
}

/** An integral that needs more is too rough for this rule, and would take seconds. */
const mostTerms = 100_000;

/**
 * Integral over the whole line of a positive analytic function with one peak that dies away on both sides.
 *
 * For such functions the plain trapezoidal rule converges faster than any power of its step, its error squaring with
 * each halving. The step starts at the width given and is halved until two sums agree to 1e-8, which leaves the last
 * one exact to rounding. Where the function dies away to the left only as an exponential, the terms are a geometric
 * series whose sum is added in closed form.
 *
 * @param centre a point near the peak; the peak itself is sought from there
 * @param width about the distance over which the function changes
 * @throws StatisticsError 'not-converged' after 14 halvings or 100 000 terms
 */
export function integratePeak(
  integrand: (u: number) => number,
  centre: number,
  width: number,
  exponential: ExponentialStart = { below: Number.NEGATIVE_INFINITY, rate: 0 },
): number {
  let terms = 0;
  const fail = (reason: string): never => {
    throw new StatisticsError('integratePeak', 'not-converged', reason);
  };
  /** Terms at origin, origin + step, ... until they no longer count. */
  const sumFrom = (origin: number, step: number, counted: number): number => {
    let sum = 0;
    for (let k = 0; ; k++) {
      const u = origin + k * step;
      if (++terms > mostTerms) fail(`needs more than ${mostTerms} terms of step ${step}; take less extreme parameters`);
      const term = integrand(u);
      sum += term;
      if (!(term > (sum + counted) * 1e-18)) return sum;
      if (u < exponential.below) return sum + term / Math.expm1(-exponential.rate * step);
    }
  };
  const bothWays = (right: number, left: number, step: number, counted: number): number => {
    const sum = sumFrom(right, step, counted);
    return sum + sumFrom(left, -step, sum + counted);
  };
  const peak = climb(integrand, centre, width);
  let step = width;
  let sum = bothWays(peak, peak - step, step, 0);
  for (let halving = 0; halving < 14; halving++) {
    const between = bothWays(peak + step / 2, peak - step / 2, step, sum);
    const change = Math.abs(between - sum);
    sum += between;
    step /= 2;
    // The second term forgives the coarse spacing of doubles below 1e-308.
    if (change <= 1e-8 * sum + 1e-318) return step * sum;
  }
  return fail(`needs a finer step than ${step} around ${peak}`);
}

/** Walks uphill from a point in growing steps, so that sums outward from where it stops fall on both sides. */
function climb(integrand: (u: number) => number, start: number, width: number): number {
  let point = start;
  let value = integrand(point);
  const direction = integrand(point + width) > value ? 1 : -1;
  for (let stride = width; ; stride *= 1.5) {
    const next = integrand(point + direction * stride);
    if (!(next > value)) return point;
    point += direction * stride;
    value = next;
  }
}
