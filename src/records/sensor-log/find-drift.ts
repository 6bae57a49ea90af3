import { median } from '../../statistics/index.js';
import { leastCoverage, type SensorDay, type SensorDrift } from '../../trial/index.js';

const fewestDays = 21;
const fewestOthers = 2;
const drifting = 6;

/**
 * How each sensor moved against the others of its log: its daily mean less the median of theirs, averaged (median) over
 * the first and the last third of the days. A log alone cannot tell a sensor that drifts from masonry that changes
 * otherwise than its surroundings.
 *
 * @returns for each sensor its drift; nothing where it shares fewer than 21 days with two others.
 */
export function findDrift(
  sensors: readonly { readonly days: readonly SensorDay[] }[],
): readonly (SensorDrift | undefined)[] {
  const valuesByDay = new Map<string, Map<number, number>>();
  for (const [index, { days }] of sensors.entries()) {
    for (const { day, mean, coverage } of days) {
      if (coverage < leastCoverage) continue;
      const values = valuesByDay.get(day) ?? new Map<number, number>();
      valuesByDay.set(day, values.set(index, mean));
    }
  }
  return sensors.map(({ days }, index) => {
    const apart = days.flatMap(({ day, mean, coverage }) => {
      const all = valuesByDay.get(day);
      if (coverage < leastCoverage || all === undefined || all.size <= fewestOthers) return [];
      return mean - median([...all].flatMap(([other, value]) => (other === index ? [] : [value])));
    });
    return apart.length < fewestDays ? undefined : driftOf(apart);
  });
}

function driftOf(apart: readonly number[]): SensorDrift {
  const third = Math.floor(apart.length / 3);
  const change = median(apart.slice(-third)) - median(apart.slice(0, third));
  const steps = apart.slice(1).map((value, index) => Math.abs(value - (apart[index] as number)));
  // 1.4826 makes a median of absolute deviations a standard deviation; a difference of two days has twice the variance.
  const scatter = (1.4826 * median(steps)) / Math.SQRT2;
  return { change, scatter, drifts: Math.abs(change) > drifting * scatter };
}
