import { checkFinite } from '../checked-quantity.js';
import { MoistureError } from '../moisture-error.js';
import { type Air, vapourPressure } from './humid-air.js';
import { type PressureOptions, saturationPressure } from './saturation-pressure.js';

/** Air at a time, and how warm the wall's surface was where that was measured. */
export interface AirAtTime extends Air {
  readonly time_h: number;
  /** The air's temperature is taken where it is absent: a cold wall then seems to dry faster than it does. */
  readonly surface_c?: number;
}

/**
 * How much more vapour pressure a wet surface has than the room, in pascal: p_sat(surface) less the air's vapour pressure.
 * Negative where the wall is below the dew point and takes up water.
 *
 * @throws MoistureError `out-of-range`, `not-finite`
 * @example pressureDifference(20, { temperature_c: 20, relativeHumidity_pct: 50 }) // 1166.3 Pa
 */
export function pressureDifference(surface_c: number, air: Air, options: PressureOptions = {}): number {
  return saturationPressure(surface_c, options) - vapourPressure(air, options);
}

/** A covariate: two periods or sites can be compared by it, but it is no rate of drying. */
export interface EvaporationPotential {
  /** Mean over time of the vapour pressure difference, negative parts included. */
  readonly mean_pa: number;
  /** Share of the time between readings in which condensation was possible, by trapezoids cut at zero. */
  readonly condensingShare: number;
  readonly hours: number;
  readonly readings: number;
  /** How many readings had no surface temperature of their own. */
  readonly surfaceAssumed: number;
  /** How many showed a humidity above 100 %, which counts as 100 %. */
  readonly aboveSaturation: number;
}

/**
 * The mean vapour pressure difference between a wet wall and the air over a period, by the trapezoidal rule, so that
 * uneven times do not tilt it. Relative humidity alone is no measure of drying: it says nothing without temperature.
 *
 * @throws MoistureError `too-few` for fewer than two readings; `out-of-order`; `out-of-range`; `not-finite`
 * @example
 * evaporationPotential([
 *   { time_h: 0, temperature_c: 10, relativeHumidity_pct: 90 },
 *   { time_h: 12, temperature_c: 18, relativeHumidity_pct: 60 },
 * ]).mean_pa // 473.1
 */
export function evaporationPotential(
  readings: readonly AirAtTime[],
  options: PressureOptions = {},
): EvaporationPotential {
  checkTimes(readings);
  const differences = readings.map((one) => pressureDifference(one.surface_c ?? one.temperature_c, one, options));
  let area = 0;
  let condensing_h = 0;
  for (let index = 1; index < readings.length; index++) {
    const span_h = (readings[index] as AirAtTime).time_h - (readings[index - 1] as AirAtTime).time_h;
    const [from, to] = [differences[index - 1] as number, differences[index] as number];
    area += (span_h * (from + to)) / 2;
    condensing_h += span_h * shareBelowZero(from, to);
  }
  const hours = (readings.at(-1) as AirAtTime).time_h - (readings[0] as AirAtTime).time_h;
  return {
    mean_pa: area / hours,
    condensingShare: condensing_h / hours,
    hours,
    readings: readings.length,
    surfaceAssumed: readings.filter((one) => one.surface_c === undefined).length,
    aboveSaturation: readings.filter((one) => one.relativeHumidity_pct > 100).length,
  };
}

/** Of a straight line between two values. */
function shareBelowZero(from: number, to: number): number {
  if (from >= 0 && to >= 0) return 0;
  if (from <= 0 && to <= 0) return 1;
  return Math.min(from, to) / (Math.min(from, to) - Math.max(from, to));
}

function checkTimes(readings: readonly AirAtTime[]): void {
  const where = 'evaporationPotential';
  if (readings.length < 2)
    throw new MoistureError(where, 'too-few', `needs at least 2 readings of the air, got ${readings.length}`);
  for (const { time_h } of readings) checkFinite(where, 'time', time_h);
  const late = readings.findIndex((one, index) => index > 0 && one.time_h <= (readings[index - 1] as AirAtTime).time_h);
  if (late > 0)
    throw new MoistureError(where, 'out-of-order', `needs readings in order of time, got ${readings[late]?.time_h} h`);
}
