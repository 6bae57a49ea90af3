import type { AirAtTime } from '../../moisture/index.js';
import { type ClimateReading, mostHumidityShown_pct, secondsOf } from '../../trial/index.js';

/**
 * The air of a reading, for the formulae of humid air; undefined where it lacks temperature or humidity. Below 45 degrees of frost and
 * at no humidity the formulae say nothing.
 */
export function usableAir({
  time,
  temperature_c,
  relative_humidity_pct,
  surface_c,
}: ClimateReading): AirAtTime | undefined {
  if (!isInRange(temperature_c)) return undefined;
  if (
    relative_humidity_pct === undefined ||
    !(relative_humidity_pct > 0 && relative_humidity_pct <= mostHumidityShown_pct)
  )
    return undefined;
  return {
    time_h: hoursOf(time),
    temperature_c,
    relativeHumidity_pct: relative_humidity_pct,
    ...(isInRange(surface_c) ? { surface_c } : {}),
  };
}

function isInRange(temperature_c: number | undefined): temperature_c is number {
  return temperature_c !== undefined && temperature_c >= -45 && temperature_c <= 60;
}

/** Hours by the time as it was written: many places are read at the same times, and asked for again and again. */
const hoursKnown = new Map<string, number>();
/** A sensor's log of several years; what a longer one has beyond is worked out each time. */
const mostHoursKnown = 100_000;

function hoursOf(time: string): number {
  const hours = hoursKnown.get(time) ?? secondsOf(time) / 3600;
  if (hoursKnown.size < mostHoursKnown) hoursKnown.set(time, hours);
  return hours;
}
