import { daysBetween } from '../../plain/days.js';
import { mean } from '../../statistics/index.js';
import type { PressureOfDay } from '../air/pressure-by-wall.js';

/** Mean of a record from one day to another, both included; undefined where it covers less than half of the time between (our convention). */
export function meanPressure(daily: readonly PressureOfDay[], from: string, to: string): number | undefined {
  const inside = daily.filter(({ day }) => day >= from && day <= to);
  const [first, last] = [inside[0], inside.at(-1)];
  if (first === undefined || last === undefined || inside.length < 2) return undefined;
  if (daysBetween(first.day, last.day) < daysBetween(from, to) / 2) return undefined;
  return mean(inside.map(({ pressure_pa }) => pressure_pa));
}
