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

export function checkFinite(where: string, name: string, value: number): void {
  if (!Number.isFinite(value)) {
    throw new StatisticsError(where, 'not-finite', `needs a finite ${name}, got ${value}`);
  }
}

export function checkPositive(where: string, name: string, value: number): void {
  checkFinite(where, name, value);
  if (value <= 0) throw new StatisticsError(where, 'out-of-range', `needs a ${name} above 0, got ${value}`);
}
