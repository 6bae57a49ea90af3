import { StatisticsError } from './statistics-error.js';

/**
 * Refuses a sample that is no list, is too small or holds something that is not a finite number.
 *
 * @param where the function that asks
 * @param name what the caller calls the sample, for the message
 */
export function checkSample(where: string, name: string, values: readonly number[], fewest: number): void {
  checkList(where, name, values);
  if (values.length < fewest) {
    const what = `needs at least ${fewest} value${fewest === 1 ? '' : 's'} in ${name}, got ${values.length}`;
    throw new StatisticsError(where, 'too-few', `${what}; add units or leave this analysis out`);
  }
  for (let at = 0; at < values.length; at++) {
    if (Number.isFinite(values[at])) continue;
    const what = `needs finite numbers in ${name}, got ${values[at]} at index ${at}`;
    throw new StatisticsError(where, 'not-finite', `${what}; leave missing values out first`);
  }
}

/** Refuses what is no list, as callers without types can hand in. */
export function checkList(where: string, name: string, values: unknown): void {
  if (Array.isArray(values) || ArrayBuffer.isView(values)) return;
  const got = values === null ? 'null' : typeof values;
  throw new StatisticsError(
    where,
    'not-finite',
    `needs a list of values as ${name}, got ${got}; look for a misspelt or missing name`,
  );
}

/** Refuses a confidence level that is not strictly between 0 and 1. */
export function checkLevel(where: string, level: number): void {
  if (!(level > 0 && level < 1)) {
    throw new StatisticsError(where, 'out-of-range', `needs a level between 0 and 1 such as 0.95, got ${level}`);
  }
}

/** As `checkFinite`, and above 0: what is no number is distinguished from what is out of range. */
export function checkPositive(where: string, name: string, value: number): void {
  checkFinite(where, name, value);
  if (value <= 0) throw new StatisticsError(where, 'out-of-range', `needs a positive ${name}, got ${value}`);
}

/** Refuses a probability that is none; 0 and 1 are. */
export function checkProbability(where: string, probability: number): void {
  checkFinite(where, 'probability', probability);
  if (probability < 0 || probability > 1) {
    throw new StatisticsError(where, 'out-of-range', `needs a probability between 0 and 1, got ${probability}`);
  }
}

/** Refuses a number that is not finite. */
export function checkFinite(where: string, name: string, value: number): void {
  if (!Number.isFinite(value)) {
    throw new StatisticsError(where, 'not-finite', `needs a finite ${name}, got ${value}`);
  }
}

/**
 * The result as it is, unless a number in it left the range of doubles on the way, as it can with values near 1e300.
 *
 * @param where the function whose result it is
 */
export function checkedResult<Result extends object>(where: string, result: Result): Result {
  for (const [name, value] of Object.entries(result)) {
    if (typeof value === 'object' && value !== null) checkedResult(where, value);
    if (typeof value === 'number' && !Number.isFinite(value)) {
      const what = `needs values that doubles can reckon with, but its ${name} came out as ${value}`;
      throw new StatisticsError(where, 'out-of-range', `${what}; give them in another unit`);
    }
  }
  return result;
}
