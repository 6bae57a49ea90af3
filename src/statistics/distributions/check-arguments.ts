import { checkFinite } from '../checked-input.js';
import { StatisticsError } from '../statistics-error.js';

/** Refuses NaN; an infinite x is a legitimate question with an answer of 0 or 1. */
export function checkPoint(where: string, x: number): void {
  if (Number.isNaN(x)) throw new StatisticsError(where, 'not-finite', 'needs a number as its point, got NaN');
}

export function checkProbability(where: string, probability: number): void {
  if (Number.isNaN(probability)) throw new StatisticsError(where, 'not-finite', 'needs a probability, got NaN');
  if (probability < 0 || probability > 1) {
    throw new StatisticsError(where, 'out-of-range', `needs a probability between 0 and 1, got ${probability}`);
  }
}

/** As `checkFinite`, and above 0: what is no number is told from what is out of range. */
export function checkPositive(where: string, name: string, value: number): void {
  checkFinite(where, name, value);
  if (value <= 0) throw new StatisticsError(where, 'out-of-range', `needs a ${name} above 0, got ${value}`);
}
