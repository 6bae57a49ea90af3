import { mostHumidityShown_pct, relativeHumidityAsCounted } from '../../trial/index.js';
import { checkFinite } from '../checked-quantity.js';
import { MoistureError } from '../moisture-error.js';

/** 0 °C in kelvin. */
export const kelvinAtZero = 273.15;

/** Refuses a temperature below absolute zero or outside a range, and asks whether its unit is right. */
export function checkTemperature(where: string, temperature_c: number, from_c: number, to_c: number): void {
  checkFinite(where, 'temperature', temperature_c);
  if (temperature_c < -kelvinAtZero)
    throw new MoistureError(where, 'out-of-range', `needs a temperature above absolute zero, got ${temperature_c} °C`);
  if (!(temperature_c >= from_c && temperature_c <= to_c))
    throw new MoistureError(
      where,
      'out-of-range',
      `needs a temperature from ${from_c} to ${to_c} °C, got ${temperature_c}; is it in °C?`,
    );
}

/** A relative humidity as it counts; refuses one that is not above 0 and at most what a hygrometer may show in saturated air. */
export function checkedHumidity(where: string, relativeHumidity_pct: number): number {
  checkFinite(where, 'relative humidity', relativeHumidity_pct);
  if (!(relativeHumidity_pct > 0 && relativeHumidity_pct <= mostHumidityShown_pct))
    throw new MoistureError(
      where,
      'out-of-range',
      `needs a relative humidity above 0 and up to ${mostHumidityShown_pct} %, got ${relativeHumidity_pct} %; is it in percent?`,
    );
  return relativeHumidityAsCounted(relativeHumidity_pct);
}
