import { daysBetween } from '../../../src/plain/days.js';
import type { ClimateReading } from '../../../src/trial/index.js';
import { everyDays } from './calendar.js';
import { type Draws, rounded } from './own-random.js';

/** Weekly means of a logger at each place: the same weather for all, and a little of the place's own. */
export function airOf(places: readonly string[], from: string, to: string, draws: Draws): readonly ClimateReading[] {
  const air: ClimateReading[] = [];
  for (const day of everyDays(from, to, 7)) {
    const year = Math.sin((2 * Math.PI * (daysBetween('2024-01-01', day) - 110)) / 365.25);
    const [warmth, damp] = [11 + 7 * year + draws.normal(), 70 - 5 * year + 3 * draws.normal()];
    for (const place of places) {
      air.push({
        time: day,
        place,
        temperature_c: rounded(warmth + 0.4 * draws.normal(), 1),
        relative_humidity_pct: rounded(damp + draws.normal(), 1),
        origin: { file: 'climate.csv', row: air.length + 2 },
      });
    }
  }
  return air;
}
