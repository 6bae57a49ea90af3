import { compensatedSum } from './compensated-sum.js';
import { differencesAsWritten } from './differences-as-written.js';

/** Values that share more than this much of themselves are taken as the decimals they were written as. */
const sharedShare = 100;

/**
 * Each value minus the mean, exact even when all values share many leading digits.
 *
 * Values that mostly share their leading digits, like 107.8681568 and 107.8681465, are first reduced to their
 * differences from the first one, in decimals as they were written: a double holds 16 digits of 107.8681568 but only 9
 * of what makes it differ. Other values have the rounded mean subtracted; what its rounding left over is then the mean
 * of the differences and is subtracted as well.
 */
export function deviations(values: readonly number[]): number[] {
  const first = values[0] ?? 0;
  const farthest = values.reduce((most, value) => Math.max(most, Math.abs(value - first)), 0);
  const sharing = farthest * sharedShare < Math.abs(first);
  const differences = sharing ? differencesAsWritten(values, first) : differencesFromMean(values);
  const rest = compensatedSum(differences) / differences.length;
  return differences.map((difference) => difference - rest);
}

function differencesFromMean(values: readonly number[]): number[] {
  const roundedMean = compensatedSum(values) / values.length;
  return values.map((value) => value - roundedMean);
}
