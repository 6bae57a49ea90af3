import { normal } from '../../distributions/normal.js';
import { StatisticsError } from '../../statistics-error.js';
import { type ReplicateQuantile, replicateQuantile } from './replicate-quantile.js';
import type { Replicates } from './replicates.js';

export interface BootstrapLimits {
  readonly lower: ReplicateQuantile;
  readonly upper: ReplicateQuantile;
}

/** The quantiles of the replicates themselves, leaving off the tail at either end. */
export function percentileLimits(replicates: Float64Array, tail: number): BootstrapLimits {
  const own = replicates.slice();
  return { lower: replicateQuantile(own, tail), upper: replicateQuantile(own, 1 - tail) };
}

/**
 * Quantiles moved for bias and skewness (Efron 1987, J. Am. Stat. Assoc. 82:171-185).
 *
 * @param influences per pool, each cluster's jackknife influence on the estimate
 */
export function bcaLimits(
  replicates: Float64Array,
  estimate: number,
  influences: readonly Float64Array[],
  tail: number,
): BootstrapLimits {
  const own = replicates.slice();
  const bias = normal().quantile(shareBelow(own, estimate));
  const skew = acceleration(influences);
  const moved = (p: number): number => {
    const point = bias + normal().quantile(p);
    return normal().lowerTail(bias + point / (1 - skew * point));
  };
  return { lower: replicateQuantile(own, moved(tail)), upper: replicateQuantile(own, moved(1 - tail)) };
}

/**
 * The estimate less the quantiles of the studentised deviations times its standard error.
 *
 * A draw without scatter has no studentised deviation; it counts as infinite, so that limits exist while such draws are few.
 */
export function studentisedLimits(
  { deviations, standardErrors }: Replicates,
  {
    estimate,
    standardError,
    tail,
  }: { readonly estimate: number; readonly standardError: number; readonly tail: number },
): BootstrapLimits {
  const ratios = deviations.map((deviation, at) => studentised(deviation, standardErrors[at] as number));
  const limit = (p: number): ReplicateQuantile => {
    const quantile = replicateQuantile(ratios, p);
    if (!Number.isFinite(quantile.value) || !Number.isFinite(quantile.standardError)) {
      const what = 'needs draws that scatter, but too many drew one cluster over and over';
      throw new StatisticsError('bootstrap', 'no-variation', `${what}; take another method or add clusters`);
    }
    return { value: estimate - quantile.value * standardError, standardError: quantile.standardError * standardError };
  };
  return { lower: limit(1 - tail), upper: limit(tail) };
}

function studentised(deviation: number, standardError: number): number {
  if (standardError > 0) return deviation / standardError;
  return deviation === 0 ? 0 : Math.sign(deviation) * Number.POSITIVE_INFINITY;
}

/** The share of draws below the estimate, those equal to it counting half, so that a mirror image gives the mirrored limits. */
function shareBelow(replicates: Float64Array, estimate: number): number {
  let [least, most] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (const replicate of replicates) {
    if (replicate < least) least = replicate;
    if (replicate > most) most = replicate;
  }
  // A draw that repeats the data is equal to the estimate, even if rounding says otherwise.
  const rounding = 1e-13 * (most - least);
  let halves = 0;
  for (const replicate of replicates) {
    if (replicate < estimate - rounding) halves += 2;
    else if (replicate <= estimate + rounding) halves += 1;
  }
  const share = halves / (2 * replicates.length);
  if (rounding === 0 || share === 0 || share === 1) {
    const what = 'needs draws on both sides of the estimate, but all lie on one';
    throw new StatisticsError('bootstrap', 'no-variation', `${what}; draw more or check the statistic`);
  }
  return share;
}

/** Skewness of the influences; over several pools as in Davison and Hinkley (1997), equations 5.23 and 5.24. */
function acceleration(influences: readonly Float64Array[]): number {
  let cubes = 0;
  let squares = 0;
  for (const influence of influences) {
    for (const one of influence) {
      const share = one / influence.length;
      cubes += share ** 3;
      squares += share ** 2;
    }
  }
  return squares > 0 ? cubes / (6 * squares ** 1.5) : 0;
}
