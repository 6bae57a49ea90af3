import { normal } from '../../distributions/normal.js';
import { studentT } from '../../distributions/student-t.js';

/** Whether intervals make up for what few units do to replicates, or are read off them as they are. */
export type SmallSample = 'corrected' | 'plain';

/** What a t interval of the same units knows and the replicates do not. */
export interface SmallSampleWidth {
  /** Standard error from variances with divisor n - 1, over that of the replicates, which have divisor n. */
  readonly widening: number;
  /** Of the standard error, from 1. */
  readonly degreesOfFreedom: number;
}

/**
 * How far replicates fall short of a t interval: units drawn again vary less than units, by sqrt((n - 1) / n), and their
 * quantiles are those of a normal shape with known variance (Hesterberg 2015, Am. Stat. 69:371-386, "narrowness bias").
 *
 * In one or two pools the degrees of freedom are Satterthwaite's, as in Welch's test. Over the many small pools of a
 * stratified sample those are far too low, so there Welch's less biased form is taken (Welch 1947, Biometrika 34:28-35:
 * n + 1 for n - 1, and two off at the end), never more than all n - 1 together.
 *
 * @param influences per pool, each unit's jackknife influence on the estimate
 */
export function smallSampleWidth(influences: readonly Float64Array[]): SmallSampleWidth {
  const sizes = influences.map(({ length }) => length);
  const found = influences.map((influence) => {
    const n = influence.length;
    return influence.reduce((sum, one) => sum + one * one, 0) / (n * (n - 1));
  });
  // A statistic that no single unit moves tells nothing of the pools' shares: they count alike.
  const variances = found.some((one) => one > 0) ? found : found.map(() => 1);
  const total = (part: (variance: number, n: number) => number) => {
    return variances.reduce((sum, variance, at) => sum + part(variance, sizes[at] as number), 0);
  };
  const whole = total((variance) => variance);
  const most = total((_, n) => n - 1);
  return {
    widening: Math.sqrt(whole / total((variance, n) => (variance * (n - 1)) / n)),
    degreesOfFreedom:
      sizes.length <= 2
        ? whole ** 2 / total((variance, n) => variance ** 2 / (n - 1))
        : Math.min(most, whole ** 2 / total((variance, n) => variance ** 2 / (n + 1)) - 2),
  };
}

/** By how much the replicates' distances from the estimate are stretched: to the reach of Student's t. */
export function stretch({ widening, degreesOfFreedom }: SmallSampleWidth, tail: number): number {
  return (widening * studentT(degreesOfFreedom).upperQuantile(tail)) / normal().upperQuantile(tail);
}

/** The tail at which plain quantiles of near-normal replicates reach as far as Student's t: Hesterberg's expanded level. */
export function expandedTail({ widening, degreesOfFreedom }: SmallSampleWidth, tail: number): number {
  return normal().upperTail(widening * studentT(degreesOfFreedom).upperQuantile(tail));
}
