import type { MoistureReading } from '../moisture/index.js';
import { isoDay } from '../plain/days.js';
import type { Trial } from '../trial/index.js';
import { type ArmCalendar, calendarOfVisits } from './calendar-of-visits.js';

/** Days on which something happened, for one chart. */
export interface Timeline {
  /** Which walls were read when, by arm. */
  readonly calendar: readonly ArmCalendar[];
  readonly readingDays: readonly {
    readonly day: string;
    readonly readings: number;
  }[];
  readonly treatedDays: readonly {
    readonly day: string;
    readonly walls: number;
  }[];
  readonly events: readonly TimelineEvent[];
}

export interface TimelineEvent {
  readonly day: string;
  readonly kind: string;
  /** The walls that it struck, or `all walls`. */
  readonly walls: string;
  readonly note: string;
}

/**
 * The days of a trial: readings of the outcome's instrument, treatments and the diary, each in the order of days.
 *
 * @example timelineOf(trial, readings).readingDays[0] // { day: '2024-03-12', readings: 144 }
 */
export function timelineOf(trial: Trial, readings: readonly MoistureReading[]): Timeline {
  const { instrument } = trial.protocol.outcome;
  const outcome = readings.filter((reading) => reading.instrument === instrument && reading.value.kind !== 'missing');
  // A sham may bear the day on which it was fitted; it is not a treatment.
  const treatments = new Set(trial.protocol.arms.flatMap(({ arm, role }) => (role === 'treated' ? [arm] : [])));
  const treated = trial.walls.flatMap(({ arm, treatedOn }) => (treatments.has(arm) ? (treatedOn ?? []) : []));
  return {
    calendar: calendarOfVisits(trial, readings),
    readingDays: countByDay(outcome.map(({ day }) => day)).map(([day, readings]) => ({ day, readings })),
    treatedDays: countByDay(treated).map(([day, walls]) => ({ day, walls })),
    events: trial.events.map(asEvent).sort((one, other) => byCodeUnit(one.day, other.day)),
  };
}

function asEvent({ date, kind, wall, note }: Trial['events'][number]): TimelineEvent {
  return { day: isoDay(date), kind, walls: wall ?? 'all walls', note };
}

function countByDay(days: readonly string[]): readonly (readonly [string, number])[] {
  const counts = new Map<string, number>();
  for (const day of days) counts.set(day, (counts.get(day) ?? 0) + 1);
  return [...counts].sort(([one], [other]) => byCodeUnit(one, other));
}

/** Not by locale, so that the order is the same on every machine. */
function byCodeUnit(one: string, other: string): number {
  return one < other ? -1 : one > other ? 1 : 0;
}
