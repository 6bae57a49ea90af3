import { pressureDifference } from '../../moisture/index.js';
import { mean } from '../../statistics/index.js';
import type { Trial } from '../../trial/index.js';
import type { WallCurve } from './drying-part.js';

const dayLength = 86_400_000;

export interface PressureOfDay {
  readonly day: string;
  readonly pressure_pa: number;
}

/** Daily means over all places of the vapour pressure difference between a wet wall as warm as the air and the air. */
export function dailyPressure({ climate }: Trial): readonly PressureOfDay[] {
  const days = new Map<string, number[]>();
  for (const { time, temperature_c, relative_humidity_pct } of climate) {
    // Below 45 degrees of frost and at no humidity the formulae say nothing.
    if (temperature_c === undefined || temperature_c < -45 || temperature_c > 60) continue;
    if (relative_humidity_pct === undefined || relative_humidity_pct <= 0) continue;
    const day = time.slice(0, 10);
    const value = pressureDifference(temperature_c, { temperature_c, relativeHumidity_pct: relative_humidity_pct });
    const known = days.get(day);
    if (known === undefined) days.set(day, [value]);
    else known.push(value);
  }
  return [...days]
    .map(([day, values]) => ({ day, pressure_pa: mean(values) }))
    .sort((one, other) => (one.day < other.day ? -1 : 1));
}

/** Weekly means from the first to the last day of the curves. */
export function weeklyPressure(trial: Trial, curves: readonly WallCurve[]): readonly PressureOfDay[] {
  const days = curves.flatMap((curve) => curve.days).sort();
  const [first = '', last = ''] = [days[0], days.at(-1)];
  const weeks = new Map<number, number[]>();
  for (const { day, pressure_pa } of dailyPressure(trial)) {
    if (day < first || day > last) continue;
    const week = Math.floor(Date.parse(`${day}T00:00:00Z`) / (7 * dayLength));
    weeks.set(week, [...(weeks.get(week) ?? []), pressure_pa]);
  }
  return [...weeks].map(([week, values]) => ({
    day: new Date(week * 7 * dayLength).toISOString().slice(0, 10),
    pressure_pa: mean(values),
  }));
}

/** Mean over the thirty days up to and with a day; undefined where the record has fewer than three of them. */
export function pressureBefore(daily: readonly PressureOfDay[], day: string): number | undefined {
  const from = new Date(Date.parse(`${day}T00:00:00Z`) - 30 * dayLength).toISOString().slice(0, 10);
  const values = daily.filter((one) => one.day > from && one.day <= day).map(({ pressure_pa }) => pressure_pa);
  return values.length < 3 ? undefined : mean(values);
}
