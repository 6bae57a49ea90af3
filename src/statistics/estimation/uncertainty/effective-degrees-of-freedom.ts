import { StatisticsError } from '../../statistics-error.js';

/** A part of the combined variance that is independent of the other parts. */
export interface VariancePart {
  readonly variance: number;
  /** Absent where the variance is taken as known. */
  readonly degreesOfFreedom: number | undefined;
}

/**
 * Effective degrees of freedom of a sum of independent variances (Welch–Satterthwaite): V² / Σ Vᵢ²/νᵢ. Undefined where
 * no part that matters has finite degrees of freedom.
 *
 * @throws StatisticsError `out-of-range` for degrees of freedom that are not above zero
 * @source JCGM 100:2008, equation G.2b (from memory)
 */
export function effectiveDegreesOfFreedom(parts: readonly VariancePart[]): number | undefined {
  // In shares of the largest variance: squares of very small or large variances would vanish or overflow.
  const largest = Math.max(0, ...parts.map(({ variance }) => variance));
  if (largest === 0) return undefined;
  let total = 0;
  let spread = 0;
  for (const { variance, degreesOfFreedom } of parts) {
    const share = variance / largest;
    total += share;
    if (degreesOfFreedom === undefined) continue;
    if (!(degreesOfFreedom > 0))
      throw new StatisticsError(
        'effectiveDegreesOfFreedom',
        'out-of-range',
        `needs degrees of freedom above 0, got ${degreesOfFreedom}`,
      );
    spread += share ** 2 / degreesOfFreedom;
  }
  return spread > 0 ? total ** 2 / spread : undefined;
}
