import type { MoistureReading } from '../moisture/index.js';
import { monthNumber } from '../plain/calendar.js';
import { daysBetween } from '../plain/days.js';

/** Days on which the places were read once. */
export interface Visit {
  readonly from: string;
  readonly to: string;
  readonly readings: readonly MoistureReading[];
}

/** Days without a reading that end a visit: our convention, as for visits that are followed in step. */
const pause_days = 3;

/**
 * Groups readings into visits, in the order of days. A visit ends where a place is read again on another day, or where more than three
 * days pass without a reading. What was not read (missing values) is no reading.
 *
 * @param by `month`: a visit is a calendar month, as for sensors that are read every day
 */
export function visitsOf(readings: readonly MoistureReading[], by: 'place' | 'month' = 'place'): readonly Visit[] {
  const read = readings
    .filter(({ value }) => value.kind !== 'missing')
    .toSorted((one, other) => (one.day < other.day ? -1 : one.day > other.day ? 1 : 0));
  const visits: { from: string; to: string; readings: MoistureReading[] }[] = [];
  const lastRead = new Map<string, string>();
  for (const reading of read) {
    const place = JSON.stringify([reading.wall, reading.station]);
    const visit = visits.at(-1);
    if (
      visit === undefined ||
      (by === 'month' ? isLater(visit, reading) : isNext(visit, reading, lastRead.get(place)))
    ) {
      visits.push({ from: reading.day, to: reading.day, readings: [reading] });
      lastRead.clear();
    } else {
      visit.to = reading.day;
      visit.readings.push(reading);
    }
    lastRead.set(place, reading.day);
  }
  return visits;
}

function isNext({ to }: Visit, { day }: MoistureReading, lastDay: string | undefined): boolean {
  const isReadAgain = lastDay !== undefined && lastDay !== day;
  return isReadAgain || daysBetween(to, day) > pause_days;
}

function isLater({ from }: Visit, { day }: MoistureReading): boolean {
  return monthNumber(from) !== monthNumber(day);
}
