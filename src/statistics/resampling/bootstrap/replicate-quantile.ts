import { normal } from '../../distributions/normal.js';
import { StatisticsError } from '../../statistics-error.js';
import { kthSmallest } from '../kth-smallest.js';

/** A quantile of replicates and how far the finite number of draws moves it. */
export interface ReplicateQuantile {
  readonly value: number;
  readonly standardError: number;
}

/**
 * The quantile at (R + 1) p of R replicates, between two of them interpolated on the scale of normal quantiles
 * (Davison and Hinkley 1997, Bootstrap Methods and their Application, equation 5.8). Its standard error is half the
 * distance between the quantiles one binomial standard deviation to either side. Reorders the replicates: to select the few
 * that are needed is several times faster than to sort them all.
 *
 * @throws StatisticsError `too-few` when the quantile lies beyond the outermost replicates
 */
export function replicateQuantile(replicates: Float64Array, p: number): ReplicateQuantile {
  const draws = replicates.length;
  const ends = [1 / (draws + 1), draws / (draws + 1)] as const;
  if (!(p >= ends[0] * (1 - 1e-9) && p <= ends[1] * (1 + 1e-9))) {
    const needed = `the ${p} quantile of ${draws} draws lies beyond them`;
    throw new StatisticsError(
      'replicateQuantile',
      'too-few',
      `needs more draws: ${needed}; draw more or lower the level`,
    );
  }
  const wobble = Math.sqrt((p * (1 - p)) / draws);
  const within = (at: number) => Math.min(Math.max(at, ends[0]), ends[1]);
  const spread = interpolated(replicates, within(p + wobble)) - interpolated(replicates, within(p - wobble));
  return { value: interpolated(replicates, within(p)), standardError: spread / 2 };
}

function interpolated(replicates: Float64Array, p: number): number {
  const draws = replicates.length;
  const place = (draws + 1) * p;
  const nearest = Math.round(place);
  if (Math.abs(place - nearest) < 1e-9 * place) return kthSmallest(replicates, nearest - 1);
  const below = Math.floor(place);
  const [low, high] = [kthSmallest(replicates, below - 1), kthSmallest(replicates, below)];
  const quantile = (at: number) => normal().quantile(at);
  const [left, right] = [quantile(below / (draws + 1)), quantile((below + 1) / (draws + 1))];
  return low + ((quantile(p) - left) / (right - left)) * (high - low);
}
