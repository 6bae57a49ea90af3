import { addDays, daysBetween } from '../../../src/plain/days.js';

/** Every so many days from the first to the last, both included where they fall on one. */
export function everyDays(first: string, last: string, step: number): string[] {
  return Array.from({ length: Math.floor(daysBetween(first, last) / step) + 1 }, (_, at) => addDays(first, at * step));
}
