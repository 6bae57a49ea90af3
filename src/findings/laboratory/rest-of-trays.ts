import type { Side } from '../../analysis/index.js';
import { isDryingError, steadyBefore } from '../../drying/index.js';
import { dayNumber, isoDay } from '../../plain/days.js';
import { orInstead } from '../../plain/unless-refused.js';
import { type Interval, mean } from '../../statistics/index.js';
import { daySorter, type Reading, type Trial } from '../../trial/index.js';

/** Whether walls in trays had come to rest before the start. */
export type RestOfTrays =
  | { readonly kind: 'not-told'; readonly reason: 'too-few-visits' }
  | {
      readonly kind: 'told';
      readonly walls: number;
      /** Mean over walls of the change in 30 days, as a share of what the wall took up or held. */
      readonly trendPer30Days: number;
      readonly interval: Interval;
    };

/** Over so many of the last visits before the start (our convention). */
export const lastVisits = 4;

/** Whether the outcome is read from trays. */
export function isReadFromTrays({ protocol: { instruments, outcome } }: Trial): boolean {
  return instruments.some(({ instrument, fromTrays }) => instrument === outcome.instrument && fromTrays !== undefined);
}

/**
 * The trend of the outcome over each wall’s last four visits before the start, relative to the wall’s mean; undefined where the outcome
 * is not read from trays. A wall that is still filling takes less from day to day by itself, which would pass for an effect.
 */
export function restOfTrays(trial: Trial, sides: ReadonlyMap<string, Side>): RestOfTrays | undefined {
  if (!isReadFromTrays(trial)) return undefined;
  const sorted = daySorter(trial);
  const { outcome, confidence } = trial.protocol;
  const before = trial.readings.filter(
    ({ instrument, wall, date }) =>
      instrument === outcome.instrument && sides.has(wall) && sorted(wall, isoDay(date)) === 'before',
  );
  const curves = [...sides.keys()].flatMap((wall) => curveOf(before.filter((one) => one.wall === wall)) ?? []);
  return orInstead(
    isDryingError,
    () => {
      const { trendPer30Days, walls } = steadyBefore(curves, { level: confidence });
      return { kind: 'told', walls, trendPer30Days: trendPer30Days.estimate, interval: trendPer30Days.interval };
    },
    () => ({ kind: 'not-told', reason: 'too-few-visits' }),
  );
}

function curveOf(readings: readonly Reading[]) {
  const last = readings
    .flatMap(({ date, value }) => (value.kind === 'measured' ? [{ time_d: dayNumber(date), value: value.value }] : []))
    .sort((one, other) => one.time_d - other.time_d)
    .slice(-lastVisits);
  const [first] = last;
  const level = mean(last.length === 0 ? [0] : last.map(({ value }) => value));
  if (first === undefined || last.length < lastVisits || !(level > 0)) return undefined;
  return {
    times_d: last.map(({ time_d }) => time_d - first.time_d),
    moisture: last.map(({ value }) => value / level),
  };
}
