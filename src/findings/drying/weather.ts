import { addDays, dayNumber, dayOfNumber } from '../../plain/days.js';
import { valuesBy } from '../../plain/group-by.js';
import { mean } from '../../statistics/index.js';
import type { Trial } from '../../trial/index.js';
import { type PressureOfDay, pressureByWall } from '../air/pressure-by-wall.js';
import type { WallCurve } from './drying-part.js';

/** Weekly means from the first to the last day of the curves: of each record that stands for a wall’s air, and then over the records. */
export function weeklyPressure(trial: Trial, curves: readonly WallCurve[]): readonly PressureOfDay[] {
  const days = curves.flatMap((curve) => curve.days).sort();
  const [first = '', last = ''] = [days[0], days.at(-1)];
  const pressureOf = pressureByWall(trial);
  const weekly = [...new Set(curves.map(({ wall }) => pressureOf(wall)))].flatMap((record) => {
    const daily = record?.daily.filter(({ day }) => day >= first && day <= last) ?? [];
    return [...valuesBy(daily, weekOf, ({ pressure_pa }) => pressure_pa)];
  });
  const weeks = valuesBy(
    weekly,
    ([week]) => week,
    ([, values]) => mean(values),
  );
  return [...weeks]
    .sort(([one], [other]) => one - other)
    .map(([week, values]) => ({
      day: dayOfNumber(7 * week),
      pressure_pa: mean(values),
    }));
}

function weekOf({ day }: PressureOfDay): number {
  return Math.floor(dayNumber(day) / 7);
}

/** Mean over the thirty days up to and with a day; undefined where the record has fewer than three of them. */
export function pressureBefore(daily: readonly PressureOfDay[], day: string): number | undefined {
  const from = addDays(day, -30);
  const values = daily.filter((one) => one.day > from && one.day <= day).map(({ pressure_pa }) => pressure_pa);
  return values.length < 3 ? undefined : mean(values);
}
