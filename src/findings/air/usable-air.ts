import type { AirAtTime } from '../../moisture/index.js';
import { type ClimateReading, mostHumidityShown_pct } from '../../trial/index.js';

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

/** A day without a time stands for its noon; a time without a zone for one zone throughout. */
function hoursOf(time: string): number {
  const withTime = time.length === 10 ? `${time}T12:00` : time;
  return Date.parse(/(Z|[+-]\d\d:\d\d)$/.test(withTime) ? withTime : `${withTime}Z`) / 3_600_000;
}
