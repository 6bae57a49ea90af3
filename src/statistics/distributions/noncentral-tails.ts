import { integratePeak } from '../numerics/quadrature/integrate-peak.js';
import { gammaTails } from '../numerics/special-functions/gamma-tails.js';
import { normalDensity, normalUpperTail } from '../numerics/special-functions/normal-tails.js';
import { chiMixture } from './chi-mixture.js';

/** Tail, density and sensitivity of the noncentral t distribution as functions of the point and the noncentrality. */
export interface NoncentralTails {
  readonly above: (t: number, noncentrality: number) => number;
  /** Density times a factor, taken inside the integral so that a large factor saves a density that would underflow. */
  readonly scaledDensity: (t: number, noncentrality: number, factor: number) => number;
  /** Derivative of the tail above t by the noncentrality. */
  readonly sensitivity: (t: number, noncentrality: number) => number;
}

/** From here on the spread of s is far below that of doubles next to 1. */
const certainScale = 1e60;
/** Beyond this distance a normal tail is less than the smallest double. */
const outOfSight = 40;

/**
 * The tails as averages over s; or over Z where the noncentrality is so large that, as a function of s, the integrand
 * would be a narrow step. As a function of Z it then changes slowly.
 */
export function noncentralTails(degreesOfFreedom: number): NoncentralTails {
  if (degreesOfFreedom >= certainScale) return normalTails;
  const overScale = averagesOverScale(degreesOfFreedom);
  const overNormal = averagesOverNormal(degreesOfFreedom);
  const chosen = (t: number, shift: number): NoncentralTails => {
    if (Math.abs(shift) <= outOfSight) return overScale;
    if (!(Math.sign(t) === Math.sign(shift))) return outOfReach;
    return Math.abs(shift) > 10 * Math.sqrt(degreesOfFreedom) ? overNormal : overScale;
  };
  const ownIntegral = (t: number, shift: number) => chosen(t, shift).above(t, shift);
  return {
    above: (t, shift) => {
      const tail = ownIntegral(t, shift);
      // The larger tail is an integral over a step, which a rule of even steps does not see; the smaller one is a peak.
      return tail > 0.5 ? 1 - ownIntegral(-t, -shift) : tail;
    },
    scaledDensity: (t, shift, factor) => chosen(t, shift).scaledDensity(t, shift, factor),
    sensitivity: (t, shift) => chosen(t, shift).sensitivity(t, shift),
  };
}

/** With s equal to 1. */
const normalTails: NoncentralTails = {
  above: (t, shift) => normalUpperTail(t - shift),
  scaledDensity: (t, shift, factor) => factor * normalDensity(t - shift),
  sensitivity: (t, shift) => normalDensity(t - shift),
};

/** The point on the other side of 0 than a large noncentrality. */
const outOfReach: NoncentralTails = {
  above: (_, shift) => (shift > 0 ? 1 : 0),
  scaledDensity: () => 0,
  sensitivity: () => 0,
};

/** For t and a large noncentrality on one side of 0: t is exceeded when s is below (or above) (Z + noncentrality) / t. */
function averagesOverNormal(degreesOfFreedom: number): NoncentralTails {
  const half = degreesOfFreedom / 2;
  const tails = gammaTails(half);
  /** Of a function of s, where s is (Z + noncentrality) / t. */
  const average = (ofScale: (s: number) => number, t: number, shift: number): number => {
    const far = Math.abs(shift);
    const integrand = (z: number) => (z <= -far ? 0 : normalDensity(z) * ofScale((z + far) / Math.abs(t)));
    return integratePeak(integrand, 0, 0.5);
  };
  const excess = (s: number) => half * (1 - s) * (1 + s);
  const below = (s: number): number => {
    if (s > hugeScale) return 1;
    return s < tinyScale
      ? below(tinyScale) * (s / tinyScale) ** degreesOfFreedom
      : tails.below(half * s * s, excess(s));
  };
  const above = (s: number): number => {
    if (s > hugeScale) return 0;
    return s < tinyScale ? 1 - below(s) : tails.above(half * s * s, excess(s));
  };
  /** Of the logarithm of s. */
  const density = (s: number): number => {
    if (s > hugeScale) return 0;
    if (s < tinyScale) return density(tinyScale) * (s / tinyScale) ** degreesOfFreedom;
    return 2 * tails.weight(half * s * s, excess(s));
  };
  return {
    above: (t, shift) => average(t > 0 ? below : above, t, shift),
    scaledDensity: (t, shift, factor) => {
      const mean = average(density, t, shift);
      // So near to 0 that one over t is no number, there is no density either.
      return mean === 0 ? 0 : (factor / Math.abs(t)) * mean;
    },
    sensitivity: (t, shift) => average(density, t, shift) / Math.abs(shift),
  };
}

/** Below this, the distribution of s is a pure power; above the other, nothing is left. Their squares are doubles. */
const tinyScale = 1e-120;
const hugeScale = 1e120;

/** Beyond this point the tail is a pure power of t, and squares of t would overflow. */
const farthest = 1e120;

function averagesOverScale(degreesOfFreedom: number): NoncentralTails {
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
