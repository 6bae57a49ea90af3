import { daysBetween, isoDay } from '../../plain/days.js';
import type { ClimateReading } from '../../trial/index.js';

/** What came in the days after `after`, up to and with `by`. */
interface Stretch {
  readonly after: string;
  readonly by: string;
  readonly amount: number;
}

const window_d = 30;
/** So much of the thirty days must be on record. */
const fewestDays = 15;

/**
 * Amounts such as rain, recorded as what came since the row before: by place the stretches between rows. The first row of a place
 * does not say over how long its amount came, and is left out.
 */
export function stretchesByPlace(
  climate: readonly ClimateReading[],
  amountOf: (reading: ClimateReading) => number | undefined,
): readonly (readonly [place: string, stretches: readonly Stretch[]])[] {
  const places = new Map<string, Map<string, number | undefined>>();
  for (const reading of climate) {
    const days = places.get(reading.place) ?? new Map<string, number | undefined>();
    places.set(reading.place, days);
    const day = isoDay(reading.time);
    const amount = amountOf(reading);
    const known = days.get(day);
    days.set(day, amount === undefined ? known : (known ?? 0) + amount);
  }
  return [...places].flatMap(([place, days]) => {
    const sorted = [...days].sort(([one], [other]) => (one < other ? -1 : 1));
    const stretches = sorted.flatMap(([by, amount], k): Stretch[] => {
      const after = sorted[k - 1]?.[0];
      return after === undefined || amount === undefined ? [] : [{ after, by, amount }];
    });
    return stretches.length === 0 ? [] : [[place, stretches] as const];
  });
}

/** What came in the thirty days up to and with a day, from the days on record; undefined where they are fewer than half. */
export function amountBefore(stretches: readonly Stretch[], day: string): number | undefined {
  let [days, amount] = [0, 0];
  for (const stretch of stretches) {
    const length = daysBetween(stretch.after, stretch.by);
    // Of a stretch that lies partly in the thirty days the like part of its amount counts.
    const from = Math.max(0, daysBetween(stretch.by, day));
    const inside = Math.min(window_d, daysBetween(stretch.after, day)) - from;
    if (inside <= 0) continue;
    days += inside;
    amount += (stretch.amount * inside) / length;
  }
  return days < fewestDays ? undefined : (amount * window_d) / days;
}
