import type { Reason } from '../../analysis/index.js';
import {
  evaporatingFront,
  evaporationOfFront,
  isDryingError,
  risingFront,
  rootTimeTest,
  type SensorArrival,
  type SensorSeries,
  sensorArrivals,
  sorptivityOf,
} from '../../drying/index.js';
import type { MoistureReading } from '../../moisture/index.js';
import { daysBetween } from '../../plain/days.js';
import { valuesBy } from '../../plain/group-by.js';
import { present } from '../../plain/present.js';
import { unlessRefused } from '../../plain/unless-refused.js';
import { mean, median } from '../../statistics/index.js';
import type { Trial } from '../../trial/index.js';
import { measuredValue } from '../../trial/measured-value.js';
import { type MoistureOfWall, moistureBehindFrontOf } from './moisture-behind-front.js';
import type { FrontOfWall, SensorAtHeight, WettingOfWall, WettingPart } from './wetting-part.js';

const fewestHeights = 3;
/** A front that keeps to the root of time bends so far by chance in fewer trials than this (our convention). */
export const bentBelow = 0.05;

/**
 * How water came up the walls that have embedded sensors at three heights or more, from the readings up to their treatment.
 * Nothing where no wall has such sensors.
 */
export function wettingOfTrial(trial: Trial, readings: readonly MoistureReading[]): WettingPart | undefined {
  const instrument = sensorsOf(trial);
  if (instrument === undefined) return undefined;
  const own = readings.filter((one) => one.instrument === instrument && one.value.kind === 'measured');
  if (own.length === 0) return undefined;
  const walls = trial.walls.flatMap(({ wall, treatedOn }) => {
    const before = own.filter((one) => one.wall === wall && (treatedOn === undefined || one.day < treatedOn));
    return wettingOfWall(trial, wall, before, trial.protocol.confidence);
  });
  if (walls.length === 0) return notShown({ code: 'no-sensors-at-heights', needed: fewestHeights });
  const plain = walls.filter(({ sensors: all }) => all.some(({ kind }) => kind === 'arrived'));
  if (plain.length === 0) return notShown({ code: 'no-sensor-steps-up' });
  return { kind: 'shown', walls: plain };
}

/** The outcome's, where it is of that kind; else the first of it. */
function sensorsOf({ protocol: { instruments, outcome } }: Trial): string | undefined {
  const names = instruments.flatMap(({ instrument, kind }) => (kind === 'embedded-sensor' ? [instrument] : []));
  return names.includes(outcome.instrument) ? outcome.instrument : names[0];
}

function notShown(reason: Reason): WettingPart {
  return { kind: 'not-shown', reason };
}

function wettingOfWall(
  trial: Trial,
  wall: string,
  readings: readonly MoistureReading[],
  level: number,
): readonly WettingOfWall[] {
  const heights = new Map(
    trial.stations.flatMap((one) => (one.wall === wall ? [[one.station, one.height_mm] as const] : [])),
  );
  const [firstDay = ''] = readings.map(({ day }) => day).sort();
  const series = [...new Set(readings.map(({ station }) => station))].flatMap((station): SensorSeries[] => {
    const height_mm = heights.get(station);
    if (height_mm === undefined) return [];
    return [
      {
        sensor: station,
        height_mm,
        ...dailyMeans(
          readings.filter((one) => one.station === station),
          firstDay,
        ),
      },
    ];
  });
  if (new Set(series.map(({ height_mm }) => height_mm)).size < fewestHeights) return [];
  const sensors = withoutSmallSteps(sensorArrivals(series, { level }));
  const moisture = moistureBehindFrontOf(trial, wall, { firstDay, sensors });
  const { thickness_mm } = trial.walls.find((each) => each.wall === wall) ?? {};
  const front = frontOf(sensors, { level, moisture, thickness_mm });
  return [{ wall, firstDay, sensors, ...present({ front }) }];
}

/** At noon of each day: a day's readings stand for the day. */
function dailyMeans(readings: readonly MoistureReading[], firstDay: string): Pick<SensorSeries, 'times' | 'values'> {
  const days = valuesBy(readings, ({ day }) => day, measuredValue);
  const sorted = [...days].sort(([one], [other]) => (one < other ? -1 : 1));
  return {
    times: sorted.map(([day]) => daysBetween(firstDay, day) + 0.5),
    values: sorted.map(([, values]) => mean(values)),
  };
}

/** Water fills what it reaches; a sensor that drifts or was knocked steps by less than half of what the others do. */
function withoutSmallSteps(arrivals: readonly SensorArrival[]): readonly SensorAtHeight[] {
  const steps = arrivals.flatMap((one) => (one.kind === 'arrived' ? [one.step.after - one.step.before] : []));
  const usual = steps.length === 0 ? 0 : median(steps);
  return arrivals.map((one): SensorAtHeight => {
    const place = { station: one.sensor, height_mm: one.height_mm };
    if (one.kind === 'not-arrived') return { ...place, kind: 'not-arrived', reason: { code: one.reason } };
    const { before, after, time, interval } = one.step;
    if (after - before < usual / 2) return { ...place, kind: 'not-arrived', reason: { code: 'sensor-steps-little' } };
    return { ...place, kind: 'arrived', time_d: time, lower_d: interval.lower, upper_d: interval.upper };
  });
}

interface OfFront {
  readonly level: number;
  readonly moisture: MoistureOfWall;
  readonly thickness_mm: number | undefined;
}

function frontOf(sensors: readonly SensorAtHeight[], of: OfFront): FrontOfWall | undefined {
  const { level, moisture } = of;
  const arrived = sensors.flatMap((one) => (one.kind === 'arrived' ? [one] : []));
  if (new Set(arrived.map(({ height_mm }) => height_mm)).size < fewestHeights) return undefined;
  const front = unlessRefused(isDryingError, () => risingFront(arrived, { level }));
  if (front === undefined) return undefined;
  const rootTime = unlessRefused(isDryingError, () => rootTimeTest(arrived, { level }));
  const evaporating = unlessRefused(isDryingError, () => evaporatingOf(arrived, of));
  return {
    ...front,
    sorptivity: sorptivityOf({ slope: front.speed, interval: front.interval }, moisture),
    moistureBehindFront: moisture,
    ...(rootTime === undefined ? {} : { rootTime: { ...rootTime, isBent: rootTime.pValue < bentBelow } }),
    ...present({ evaporating }),
  };
}

function evaporatingOf(
  arrivals: Parameters<typeof evaporatingFront>[0],
  { level, moisture, thickness_mm }: OfFront,
): NonNullable<FrontOfWall['evaporating']> {
  const front = evaporatingFront(arrivals, { level });
  const { rest, speed, interval } = front;
  const evaporation =
    rest === undefined || thickness_mm === undefined || !(thickness_mm > 0)
      ? {}
      : { evaporation_mm_d: evaporationOfFront(rest, { thickness_mm, moistureBehindFront: moisture.value }) };
  return { ...front, sorptivity: sorptivityOf({ slope: speed, interval }, moisture), ...evaporation };
}
