import { median } from '../../estimation/summaries/median.js';
import { checkResiduals } from '../../models/linear/check-residuals.js';
import type { DesignMatrix } from '../../models/linear/design-matrix.js';
import { leastSquares } from '../../models/linear/least-squares.js';
import { StatisticsError } from '../../statistics-error.js';

/** A linear model of a series whose errors resemble the errors before them. */
export interface SeriesRegression {
  readonly design: DesignMatrix;
  readonly response: readonly number[];
  /** When each value was read, in any unit, rising; gaps need not be alike. */
  readonly times: readonly number[];
}

/**
 * Gaps between neighbours, one fewer than the values, in units of the typical (median) gap; refuses what no model of a
 * series can be fitted to, a series that the design fits exactly among it.
 */
export function gapsOfSeries(where: string, series: SeriesRegression): readonly number[] {
  const { design, response, times } = series;
  if (times.length !== response.length) {
    const detail = `needs a time for every value, got ${times.length} times for ${response.length} values`;
    throw new StatisticsError(where, 'lengths-differ', detail);
  }
  const steps = times.slice(1).map((time, at) => time - times[at]!);
  const odd = steps.findIndex((step) => !(step > 0 && Number.isFinite(step)));
  if (odd >= 0) {
    const detail = `needs times that rise, got ${times[odd + 1]} after ${times[odd]}; sort the series and average what was read at one time`;
    throw new StatisticsError(where, 'out-of-range', detail);
  }
  checkResiduals(where, leastSquares(design, response));
  const typical = median(steps);
  return steps.map((step) => step / typical);
}
