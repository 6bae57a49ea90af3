import { checkedResult, checkLevel } from '../../checked-input.js';
import type { Interval } from '../../interval.js';
import { checkResiduals } from '../../models/linear/check-residuals.js';
import { type ContrastWeights, weightedEstimate, weightVector } from '../../models/linear/contrast-weights.js';
import type { DesignMatrix } from '../../models/linear/design-matrix.js';
import { leastSquares } from '../../models/linear/least-squares.js';
import { orthonormalRows } from '../../models/linear/orthonormal-rows.js';
import { turnedWeights } from '../../models/linear/turned-weights.js';
import { normalDraws } from '../../resampling/random/normal-draws.js';
import { randomStream } from '../../resampling/random/random-stream.js';
import { StatisticsError } from '../../statistics-error.js';

export interface NeweyWestOptions {
  /** Seed of the draws behind the critical value. */
  readonly seed: number;
  /** Defaults to 0.95. */
  readonly level?: number;
  /** Lags that count, as a share of the length of the series, above 0 up to 1; defaults to 0.5. */
  readonly bandwidth?: number;
  /** Defaults to 10,000. */
  readonly draws?: number;
}

export interface NeweyWestContrast {
  readonly kind: 'newey-west';
  readonly estimate: number;
  /** Newey and West's, with the Bartlett weights. */
  readonly standardError: number;
  /** Estimate over standard error. */
  readonly statistic: number;
  /** What the statistic exceeds either way in a share 1 - level of series without autocorrelation. */
  readonly criticalValue: number;
  readonly interval: Interval;
  /** Two-sided, against zero, from the draws: never below 1 / (draws + 1). */
  readonly pValue: number;
  readonly seed: number;
}

/**
 * A weighted sum of ordinary least-squares coefficients of a series, with a standard error that holds whatever the
 * autocorrelation is, if the series is long. The order of the values counts and their times do not.
 *
 * The bandwidth is held to be a fixed share of the series, and the critical value is that of the same regression with
 * independent normal errors, drawn from the seed: Kiefer and Vogelsang's fixed-b reference, whose published values hold for
 * the mean of a series and not where a regressor is a step. In short series with strong autocorrelation the interval is still
 * much too short (tests/simulation/paired-series.md): an alternative to look at, not to rely on.
 *
 * @param weights by column name; columns not named weigh nothing
 * @throws StatisticsError what `leastSquares` throws; `no-variation` for an exact fit; `out-of-range` for weights or options
 * @example neweyWestContrast(series.design, series.response, { step: 1 }, { seed: 1 }).interval // { level: 0.95, lower: -0.9898, upper: -0.5769 }
 * @source Newey and West 1987, Econometrica 55:703–708; Kiefer and Vogelsang 2005, Econometric Theory 21:1130–1164
 */
export function neweyWestContrast(
  design: DesignMatrix,
  response: readonly number[],
  weights: ContrastWeights,
  options: NeweyWestOptions,
): NeweyWestContrast {
  const where = 'neweyWestContrast';
  const { seed, level = 0.95, bandwidth = 0.5, draws = 10_000 } = options;
  checkOptions(where, level, bandwidth, draws);
  const vector = weightVector(where, design, weights);
  const fit = leastSquares(design, response);
  checkResiduals(where, fit);
  const lags = Math.max(1, Math.round(bandwidth * response.length));
  const rows = orthonormalRows(fit);
  const pull = pullOfValues(rows, turnedWeights(fit.inverseFactor, vector));
  const estimate = weightedEstimate(fit.coefficients, vector);
  const standardError = bartlettError(Float64Array.from(fit.residuals), pull, lags);
  const statistic = estimate / standardError;
  const drawn = drawnSizes({ rank: fit.rank, rows, pull, lags, draws, seed });
  const criticalValue = drawn[Math.ceil(level * (draws + 1)) - 1] ?? drawn[draws - 1]!;
  const reach = criticalValue * standardError;
  const beyond = drawn.reduce((count, size) => count + Number(size >= Math.abs(statistic)), 0);
  return checkedResult(where, {
    kind: 'newey-west',
    estimate,
    standardError,
    statistic,
    criticalValue,
    interval: { level, lower: estimate - reach, upper: estimate + reach },
    pValue: (beyond + 1) / (draws + 1),
    seed,
  });
}

/** How far each value moves the weighted sum. */
function pullOfValues(rows: Float64Array, turned: Float64Array): Float64Array {
  const rank = turned.length;
  return Float64Array.from({ length: rows.length / rank }, (_, row) =>
    turned.reduce((sum, weight, k) => sum + weight * rows[row * rank + k]!, 0),
  );
}

/**
 * Root of the sum of autocovariances under Bartlett's falling weights, found as the mean square of all sums of `lags`
 * neighbours, those that stick out at the ends included: the same number, and never negative.
 */
function bartlettError(residuals: Float64Array, pull: Float64Array, lags: number): number {
  let [sum, squares] = [0, 0];
  const { length } = residuals;
  for (let last = 0; last < length + lags - 1; last++) {
    if (last < length) sum += residuals[last]! * pull[last]!;
    if (last >= lags) sum -= residuals[last - lags]! * pull[last - lags]!;
    squares += sum * sum;
  }
  return Math.sqrt(squares / lags);
}

interface DrawnRegression {
  readonly rank: number;
  readonly rows: Float64Array;
  readonly pull: Float64Array;
  readonly lags: number;
  readonly draws: number;
  readonly seed: number;
}

/** Sizes of the statistic in the same regression of independent normal values, rising. */
function drawnSizes({ rank, rows, pull, lags, draws, seed }: DrawnRegression): Float64Array {
  const stream = randomStream(seed);
  const sizes = new Float64Array(draws);
  for (let draw = 0; draw < draws; draw++) {
    const values = normalDraws(stream, pull.length);
    let estimate = 0;
    for (let row = 0; row < values.length; row++) estimate += values[row]! * pull[row]!;
    for (let k = 0; k < rank; k++) {
      let along = 0;
      for (let row = 0; row < values.length; row++) along += rows[row * rank + k]! * values[row]!;
      for (let row = 0; row < values.length; row++) values[row]! -= along * rows[row * rank + k]!;
    }
    sizes[draw] = Math.abs(estimate) / bartlettError(values, pull, lags);
  }
  return sizes.sort();
}

function checkOptions(where: string, level: number, bandwidth: number, draws: number): void {
  checkLevel(where, level);
  if (!(bandwidth > 0 && bandwidth <= 1)) {
    throw new StatisticsError(where, 'out-of-range', `needs a bandwidth above 0 up to 1, got ${bandwidth}`);
  }
  if (!(Number.isSafeInteger(draws) && draws * (1 - level) >= 1)) {
    const detail = `needs enough draws to see a share of ${1 - level} of them, got ${draws}; ask for at least ${Math.ceil(1 / (1 - level))}`;
    throw new StatisticsError(where, 'out-of-range', detail);
  }
}
