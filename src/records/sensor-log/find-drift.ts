import { daysBetween } from '../../plain/days.js';
import { median } from '../../statistics/index.js';
import { leastCoverage, type SensorDay, type SensorDrift } from '../../trial/index.js';

const fewestDays = 20;
const fewestOthers = 2;
const drifting = 5;

/**
 * How each sensor drifts against the others of its log: from each day to the next the change of its mean less the median
 * change of the others, and the median of these over the days. Seasons pass through all sensors alike and fall out; water that
 * arrives, or a step, is one day among many. What remains is slow and steady. A log alone cannot tell whether the sensor or the
 * masonry around it makes it.
 *
 * @returns for each sensor its drift; nothing where fewer than 20 changes are shared with two others.
 */
export function findDrift(
  sensors: readonly { readonly days: readonly SensorDay[] }[],
): readonly (SensorDrift | undefined)[] {
  const changesByDay = new Map<string, Map<number, number>>();
  for (const [index, { days }] of sensors.entries()) {
    const whole = days.filter(({ coverage }) => coverage >= leastCoverage);
    for (const [at, { day, mean }] of whole.entries()) {
      const before = whole[at - 1];
      if (before === undefined || daysBetween(before.day, day) !== 1) continue;
      const changes = changesByDay.get(day) ?? new Map<number, number>();
      changesByDay.set(day, changes.set(index, mean - before.mean));
    }
  }
  return sensors.map((_, index) => {
    const apart = [...changesByDay.values()].flatMap((changes) => {
      const own = changes.get(index);
      if (own === undefined || changes.size <= fewestOthers) return [];
      return own - median([...changes].flatMap(([other, change]) => (other === index ? [] : [change])));
    });
    return apart.length < fewestDays ? undefined : driftOf(apart);
  });
}

/** The standard error of a median of normal values is √(π/2) that of their mean; 1.4826 makes a median deviation a standard one. */
function driftOf(apart: readonly number[]): SensorDrift {
  const perDay = median(apart);
  const deviation = 1.4826 * median(apart.map((change) => Math.abs(change - perDay)));
  const standardError = (Math.sqrt(Math.PI / 2) * deviation) / Math.sqrt(apart.length);
  return { perDay, standardError, drifts: Math.abs(perDay) > drifting * standardError };
}
