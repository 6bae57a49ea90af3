import { daysBetween, monthlyValue } from './calendar.mjs';
import { decimals } from './table.mjs';

const temperatures = [3, 4, 7, 10, 14, 17, 19, 19, 15, 11, 7, 4];
const humidities = [88, 85, 80, 75, 73, 73, 74, 76, 80, 85, 88, 89];

/** One noon reading of the air a week at each place, for a mild and damp climate. */
export function readClimate(random, { places, from, to }) {
  return daysBetween(from, to, 7).flatMap((day) =>
    places.map((place) => ({
      time: `${day}T12:00`,
      place,
      temperature_c: decimals(monthlyValue(temperatures, day) + random.normal(2.5), 1),
      relative_humidity_pct: decimals(Math.min(100, monthlyValue(humidities, day) + random.normal(6)), 0),
    })),
  );
}
