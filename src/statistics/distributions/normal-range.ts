import { integratePeak } from '../numerics/quadrature/integrate-peak.js';
import { normalBetween } from '../numerics/special-functions/normal-between.js';
import { normalDensity, normalUpperTail } from '../numerics/special-functions/normal-tails.js';

/** The range of several independent standard normal values: largest minus smallest. */
export interface NormalRange {
  readonly below: (width: number) => number;
  readonly above: (width: number) => number;
  readonly density: (width: number) => number;
}

/** Integrals over z, the largest value: the others lie between z - width and z. Needs three values or more. */
export function normalRange(count: number): NormalRange {
  const others = count - 1;
  const below = (width: number): number =>
    count * integratePeak((z) => normalDensity(z) * normalBetween(z, width) ** others, Math.min(width / 2, 1), 0.5);

  const above = (width: number): number => {
    if (width < 0.5) return 1 - below(width);
    const integrand = (z: number): number => {
      const belowLargest = normalUpperTail(-z);
      if (belowLargest === 0) return 0;
      const share = normalUpperTail(width - z) / belowLargest;
      return -normalDensity(z) * belowLargest ** others * Math.expm1(others * Math.log1p(-share));
    };
    return count * integratePeak(integrand, width / 2, 0.5);
  };
  const density = (width: number): number => {
    const integrand = (z: number): number =>
      normalDensity(z) * normalDensity(z - width) * normalBetween(z, width) ** (others - 1);
    return count * others * integratePeak(integrand, width / 2, 0.5);
  };
  return { below, above, density };
}
