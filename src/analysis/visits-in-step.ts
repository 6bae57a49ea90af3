import { daysBetween } from '../plain/days.js';
import type { PlaceReading } from './place-reading.js';

/** Visits further apart than this are not one visit to both walls: our convention. */
export const mostDaysApart = 3;

export interface InStep {
  /** The readings of the wall, those of a visit paired with another day under the day of the other wall. */
  readonly readings: readonly PlaceReading[];
  /** Days of the other wall with which a visit of another day was paired. */
  readonly moved: ReadonlySet<string>;
}

/**
 * Brings the visits of a wall in step with those of another: same days first, then the nearest days at most three apart and in
 * the same window, each used once. A visit without a partner keeps its day.
 */
export function inStepWith(other: readonly PlaceReading[], readings: readonly PlaceReading[]): InStep {
  const [theirs, own] = [windowsByDay(other), windowsByDay(readings)];
  const free = [...theirs].filter(([day]) => !own.has(day));
  const spare = [...own].filter(([day]) => !theirs.has(day));
  const near = spare
    .flatMap(([day, window]) =>
      free
        .filter(([to, of]) => of === window && daysApart(day, to) <= mostDaysApart)
        .map(([to]) => ({ day, to, apart: daysApart(day, to) })),
    )
    .sort((one, two) => one.apart - two.apart || compare(one.to, two.to) || compare(one.day, two.day));
  const pairs = new Map<string, string>();
  const moved = new Set<string>();
  for (const { day, to } of near) {
    if (pairs.has(day) || moved.has(to)) continue;
    pairs.set(day, to);
    moved.add(to);
  }
  return { readings: readings.map((reading) => ({ ...reading, day: pairs.get(reading.day) ?? reading.day })), moved };
}

function windowsByDay(readings: readonly PlaceReading[]): ReadonlyMap<string, PlaceReading['window']> {
  return new Map(readings.map(({ day, window }) => [day, window]));
}

function daysApart(one: string, other: string): number {
  return Math.abs(daysBetween(one, other));
}

function compare(one: string, other: string): number {
  return one < other ? -1 : one > other ? 1 : 0;
}
