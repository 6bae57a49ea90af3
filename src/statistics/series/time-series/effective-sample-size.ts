import { StatisticsError } from '../../statistics-error.js';

/**
 * How many independent values carry as much about a mean as `count` evenly spaced values whose neighbours correlate by
 * `correlation`, the correlation dying away by powers (first-order autocorrelation): n / (1 + 2 sum (1 - k/n) r^k).
 *
 * It is more than `count` where the correlation is negative. No correction is made for an estimated correlation.
 *
 * @param count how many values the series has, a whole number from 1
 * @param correlation that of neighbours, between -1 and 1
 * @returns the effective number of values, not rounded
 * @throws StatisticsError `out-of-range` for another count or correlation
 * @example effectiveSampleSize(2, 0.5) // 4 / 3
 * @source Bayley and Hammersley (1946), The effective number of independent observations in an autocorrelated time series
 */
export function effectiveSampleSize(count: number, correlation: number): number {
  checkSeries(count, correlation);
  return (count * count) / varianceOfSum(count, correlation);
}

/** Of a series of unit variance, as a sum of squares: no terms cancel where the correlation is negative. */
function varianceOfSum(count: number, correlation: number): number {
  const ofShock = (1 - correlation) * (1 + correlation);
  let carried = 1;
  let total = 0;
  for (let at = 1; at < count; at++) {
    total += ofShock * carried * carried;
    carried = 1 + correlation * carried;
  }
  return total + carried * carried;
}

function checkSeries(count: number, correlation: number): void {
  const where = 'effectiveSampleSize';
  if (!(Number.isSafeInteger(count) && count >= 1)) {
    throw new StatisticsError(where, 'out-of-range', `needs a whole number of values from 1, got ${count}`);
  }
  if (!(correlation > -1 && correlation < 1)) {
    throw new StatisticsError(where, 'out-of-range', `needs a correlation between -1 and 1, got ${correlation}`);
  }
}
