import { checkFinite, checkPositive, checkProbability } from '../checked-input.js';
import { newtonInBracket } from '../numerics/root-finding/newton-in-bracket.js';
import { StatisticsError } from '../statistics-error.js';
import { checkPoint } from './check-point.js';
import type { Distribution } from './distribution.js';
import { noncentralTails } from './noncentral-tails.js';
import { studentT } from './student-t.js';

/** With fewer, most of the distribution lies beyond the range of doubles. */
const fewestDegrees = 1e-3;

/**
 * Noncentral t distribution: (Z + noncentrality) / s with Z standard normal and df * s^2 chi-square.
 *
 * Both tails and the density are averages over s or over Z, by quadrature; relative error below 1e-9 in either tail,
 * but for what rounding the point moves it. It is the distribution of t statistics when there is an effect, so the source of power and of
 * exact intervals for standardised differences.
 *
 * @throws StatisticsError when the degrees of freedom are below 0.001 or the noncentrality is not finite
 * @example noncentralT(10, 2).upperTail(2.2281388519862753) // 0.43955206357506327
 */
export function noncentralT(degreesOfFreedom: number, noncentrality: number): Distribution {
  checkPositive('noncentralT', 'number of degrees of freedom', degreesOfFreedom);
  checkFinite('noncentralT', 'noncentrality', noncentrality);
  if (degreesOfFreedom < fewestDegrees) {
    const detail = `needs at least ${fewestDegrees} degrees of freedom to be exact, got ${degreesOfFreedom}`;
    throw new StatisticsError('noncentralT', 'out-of-range', detail);
  }
  const tails = noncentralTails(degreesOfFreedom);

  /** The t with tail q above it, for 0 < q <= 1/2; the unknown is asinh t, linear near 0 and logarithmic far out. */
  const outerQuantile = (q: number, shift: number): number => {
    if (tails.above(Number.MAX_VALUE, shift) >= q) return Number.POSITIVE_INFINITY;
    const start = studentT(degreesOfFreedom).upperQuantile(q) + shift;
    const transformed = newtonInBracket(
      (point) => {
        const t = Math.sinh(point);
        const tail = tails.above(t, shift);
        return { value: -Math.log(tail / q), slope: tails.scaledDensity(t, shift, Math.cosh(point)) / tail };
      },
      Math.asinh(start),
      -710,
      710,
    );
    return Math.sinh(transformed);
  };
  const upperQuantile = (q: number, shift: number): number => {
    checkProbability('noncentralT', q);
    if (q === 0) return Number.POSITIVE_INFINITY;
    if (q === 1) return Number.NEGATIVE_INFINITY;
    return q <= 0.5 ? outerQuantile(q, shift) : -outerQuantile(1 - q, -shift);
  };
  const tailAbove = (t: number, shift: number): number => {
    checkPoint('noncentralT', t);
    return tails.above(t, shift);
  };
  return {
    density: (t) => {
      checkPoint('noncentralT', t);
      return tails.scaledDensity(t, noncentrality, 1);
    },
    lowerTail: (t) => tailAbove(-t, -noncentrality),
    upperTail: (t) => tailAbove(t, noncentrality),
    quantile: (p) => 0 - upperQuantile(p, -noncentrality),
    upperQuantile: (q) => upperQuantile(q, noncentrality),
  };
}
