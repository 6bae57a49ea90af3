import { checkLevel, checkSample } from '../../checked-input.js';
import { studentT } from '../../distributions/student-t.js';
import { mean } from '../../estimation/summaries/mean.js';
import type { Interval } from '../../interval.js';
import { StatisticsError } from '../../statistics-error.js';

/** One step from a level to another. */
export interface ChangeInMean {
  /** Half way between the last observation before the step and the first after it. */
  readonly time: number;
  /**
   * From the last observation before the earliest step that the data allow to the first after the latest. It is never
   * shorter than the gap in which the step lies.
   */
  readonly interval: Interval;
  readonly before: number;
  readonly after: number;
  readonly observationsBefore: number;
  /** After less before, over its standard error as if the step's place had been known: large where the step is plain. */
  readonly statistic: number;
  readonly residualSumOfSquares: number;
}

const WHERE = 'changeInMean';

/**
 * The one place at which a series steps from a mean to another: the split with the least sum of squares, with at least two
 * observations on either side. Its interval holds every split whose sum of squares exceeds the least by no more than the
 * residual variance times the square of Student's t (the profile of the likelihood).
 *
 * @param times in increasing order
 * @param level of the interval, defaults to 0.95
 * @throws StatisticsError `too-few` below five observations, `lengths-differ`, `not-finite`, `out-of-range` for times out of
 *   order, `no-variation` where nothing is left to judge the step by
 * @example changeInMean([0, 1, 2, 3, 4, 5], [1.0, 1.1, 0.9, 3.0, 3.2, 3.1]).time // 2.5
 * @source Hinkley 1970, Biometrika 57:1–17 (the likelihood; from memory)
 */
export function changeInMean(
  times: readonly number[],
  values: readonly number[],
  options: { readonly level?: number } = {},
): ChangeInMean {
  const level = options.level ?? 0.95;
  checkLevel(WHERE, level);
  checkSeries(times, values);
  const splits = Array.from({ length: values.length - 3 }, (_, k) => splitAt(values, k + 2));
  const best = splits.reduce((least, one) => (one.sumOfSquares < least.sumOfSquares ? one : least));
  const degreesOfFreedom = values.length - 3;
  if (!(best.sumOfSquares > 0))
    throw new StatisticsError(WHERE, 'no-variation', 'needs observations that vary about their level');
  const reach = studentT(degreesOfFreedom).upperQuantile((1 - level) / 2);
  const limit = best.sumOfSquares * (1 + reach ** 2 / degreesOfFreedom);
  const allowed = splits.filter(({ sumOfSquares }) => sumOfSquares <= limit);
  const [first, last] = [allowed[0]!.at, allowed.at(-1)!.at];
  const variance = best.sumOfSquares / degreesOfFreedom;
  const standardError = Math.sqrt(variance * (1 / best.at + 1 / (values.length - best.at)));
  return {
    time: (times[best.at - 1]! + times[best.at]!) / 2,
    interval: { level, lower: times[first - 1]!, upper: times[last]! },
    before: best.before,
    after: best.after,
    observationsBefore: best.at,
    statistic: (best.after - best.before) / standardError,
    residualSumOfSquares: best.sumOfSquares,
  };
}

function splitAt(values: readonly number[], at: number) {
  const [before, after] = [mean(values.slice(0, at)), mean(values.slice(at))];
  const sumOfSquares = values.reduce((sum, value, k) => sum + (value - (k < at ? before : after)) ** 2, 0);
  return { at, before, after, sumOfSquares };
}

function checkSeries(times: readonly number[], values: readonly number[]): void {
  checkSample(WHERE, 'times', times, 5);
  checkSample(WHERE, 'values', values, 5);
  if (times.length !== values.length)
    throw new StatisticsError(
      WHERE,
      'lengths-differ',
      `needs one value for every time, got ${values.length} for ${times.length}`,
    );
  const late = times.findIndex((time, k) => k > 0 && time <= times[k - 1]!);
  if (late < 0) return;
  const detail = `needs times in increasing order, got ${times[late]} after ${times[late - 1]}`;
  throw new StatisticsError(WHERE, 'out-of-range', detail);
}
