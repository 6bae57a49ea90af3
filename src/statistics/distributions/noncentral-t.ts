import { newtonInBracket } from '../root-finding/newton-in-bracket.js';
import { normalDensity, normalUpperTail } from '../special-functions/normal-tails.js';
import { checkFinite, checkPoint, checkPositive, checkProbability } from './check-arguments.js';
import { chiMixture } from './chi-mixture.js';
import type { Distribution } from './distribution.js';
import { studentT } from './student-t.js';

/**
 * Noncentral t distribution: (Z + noncentrality) / s with Z standard normal and df * s^2 chi-square.
 *
 * Both tails and the density are averages of normal tails and densities over s, by quadrature; relative error below
 * 1e-9 in either tail. It is the distribution of t statistics when there is an effect, so the source of power and of
 * exact intervals for standardised differences.
 *
 * @throws StatisticsError when the degrees of freedom are not above 0 or the noncentrality is not finite
 * @example noncentralT(10, 2).upperTail(2.2281388519862753) // 0.43955206357506327
 */
export function noncentralT(degreesOfFreedom: number, noncentrality: number): Distribution {
  checkPositive('noncentralT', 'number of degrees of freedom', degreesOfFreedom);
  checkFinite('noncentralT', 'noncentrality', noncentrality);
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

/** Tail, density and sensitivity of the noncentral t distribution as functions of the point and the noncentrality. */
export interface NoncentralTails {
  readonly above: (t: number, noncentrality: number) => number;
  /** Density times a factor, taken inside the integral so that a large factor saves a density that would underflow. */
  readonly scaledDensity: (t: number, noncentrality: number, factor: number) => number;
  /** Derivative of the tail above t by the noncentrality. */
  readonly sensitivity: (t: number, noncentrality: number) => number;
}

/** Beyond this point the tail is a pure power of t, and squares of t would overflow. */
const farthest = 1e120;

export function noncentralTails(degreesOfFreedom: number): NoncentralTails {
  /** Average over s of a function of the standardised distance t*s - noncentrality. */
  const average = (conditional: (z: number, s: number) => number, t: number, shift: number, power: number): number => {
    const mixture = chiMixture(degreesOfFreedom, -40 - Math.log(Math.max(Math.abs(t), 1)));
    const mode = jointMode(degreesOfFreedom + power, degreesOfFreedom, t, shift);
    const beyond = t * mode - shift > 0 || power > 0;
    const scale = beyond ? mode : 1;
    const curvature = 2 * degreesOfFreedom * scale * scale + (beyond ? (t * scale) ** 2 : 0);
    const width = Math.min(0.5, 1 / Math.sqrt(curvature));
    // Near s = 1 the distance is t - shift and a correction, so that two large numbers do not lose what they differ by.
    const distance = (s: number, u: number): number =>
      Math.abs(u) < 0.3 ? t * Math.expm1(u) + (t - shift) : t * s - shift;
    return mixture((s, u) => conditional(distance(s, u), s), Math.log(scale), width);
  };
  const above = (t: number, shift: number): number => {
    if (t > farthest) return above(farthest, shift) * (t / farthest) ** -degreesOfFreedom;
    if (t < -farthest) return 1 - above(-t, -shift);
    return average(normalUpperTail, t, shift, 0);
  };
  const scaledDensity = (t: number, shift: number, factor: number): number => {
    const excess = Math.abs(t) / farthest;
    if (excess <= 1) return average((z, s) => s * factor * normalDensity(z), t, shift, 1);
    return scaledDensity(Math.sign(t) * farthest, shift, factor / excess) * excess ** -degreesOfFreedom;
  };
  return { above, scaledDensity, sensitivity: (t, shift) => average(normalDensity, t, shift, 0) };
}

/** The s that maximises s^power exp(-df s^2/2 - (t s - shift)^2/2). */
function jointMode(power: number, degreesOfFreedom: number, t: number, shift: number): number {
  const quadratic = degreesOfFreedom + t * t;
  const linear = t * shift;
  const root = Math.sqrt(linear * linear + 4 * quadratic * power);
  return linear >= 0 ? (linear + root) / (2 * quadratic) : (2 * power) / (root - linear);
}
