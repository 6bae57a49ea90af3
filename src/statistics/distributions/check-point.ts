import { StatisticsError } from '../statistics-error.js';

/** Refuses NaN; an infinite x is a legitimate question with an answer of 0 or 1. */
export function checkPoint(where: string, x: number): void {
  if (Number.isNaN(x)) throw new StatisticsError(where, 'not-finite', 'needs a number as its point, got NaN');
}
