import { integratePeak } from '../numerics/quadrature/integrate-peak.js';
import { exponentialRemainder } from '../numerics/special-functions/exponential-remainder.js';
import { stirlingExcess } from '../numerics/special-functions/stirling-excess.js';

/** Averages a positive function of s and log s over the distribution of s; the product peaks near `logCentre`. */
export type ChiMixture = (
  conditional: (s: number, logScale: number) => number,
  logCentre: number,
  width: number,
) => number;

/**
 * Mean of a function of s, where df * s^2 follows a chi-square distribution: a standard deviation over its true value.
 *
 * @param logNegligible log s below which the conditional function has stopped changing
 */
export function chiMixture(degreesOfFreedom: number, logNegligible: number): ChiMixture {
  const half = degreesOfFreedom / 2;
  const scale = Math.sqrt((2 * half) / Math.PI) * Math.exp(-stirlingExcess(half));
  const exponential = { below: Math.min(logNegligible, -20), rate: degreesOfFreedom };
  return (conditional, logCentre, width) => {
    const integrand = (u: number): number => {
      const weight = Math.exp(-half * exponentialRemainder(2 * u));
      return weight === 0 ? 0 : weight * conditional(Math.exp(u), u);
    };
    return scale * integratePeak(integrand, logCentre, width, exponential);
  };
}
