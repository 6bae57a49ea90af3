import { checkPositive } from '../checked-quantity.js';
import { MoistureError } from '../moisture-error.js';
import { checkedHumidity, kelvinAtZero } from './absolute-temperature.js';
import { type PressureOptions, saturationPressure, saturationTemperature } from './saturation-pressure.js';

/** Air as a hygrometer shows it. */
export interface Air {
  readonly temperature_c: number;
  /** Above 0; up to 105, as a hygrometer shows it, of which all above 100 counts as 100. */
  readonly relativeHumidity_pct: number;
}

/** Of water vapour, J/(kg K). */
const gasConstantOfVapour = 461.5;
/** Pa, unless another is stated. */
const standardPressure_pa = 101_325;
/** Molar mass of water over that of dry air. */
const molarMassRatio = 0.622;

/**
 * Partial pressure of the water vapour in air, in pascal: relative humidity times saturation pressure.
 *
 * @throws MoistureError `out-of-range`, `not-finite`
 * @example vapourPressure({ temperature_c: 20, relativeHumidity_pct: 50 }) // 1166.3 Pa
 */
export function vapourPressure(air: Air, options: PressureOptions = {}): number {
  const relativeHumidity_pct = checkedHumidity('vapourPressure', air.relativeHumidity_pct);
  return (relativeHumidity_pct / 100) * saturationPressure(air.temperature_c, options);
}

/**
 * The temperature to which air must cool to be saturated, in °C.
 *
 * @throws MoistureError `out-of-range`, also where the dew point lies outside the formula's range; `not-finite`
 * @example dewPoint({ temperature_c: 20, relativeHumidity_pct: 50 }) // 9.255 °C
 */
export function dewPoint(air: Air, options: PressureOptions = {}): number {
  return saturationTemperature(vapourPressure(air, options), options);
}

/**
 * Mass of water vapour in a volume of air, g/m³, as an ideal gas.
 *
 * @throws MoistureError `out-of-range`, `not-finite`
 * @example vapourDensity({ temperature_c: 20, relativeHumidity_pct: 50 }) // 8.621 g/m³
 */
export function vapourDensity(air: Air, options: PressureOptions = {}): number {
  return (1000 * vapourPressure(air, options)) / (gasConstantOfVapour * (air.temperature_c + kelvinAtZero));
}

/**
 * Mass of water vapour by mass of dry air, g/kg.
 *
 * @param airPressure_pa total pressure; 101 325 Pa unless given
 * @throws MoistureError `out-of-range`, also where the vapour alone has the whole pressure; `not-finite`
 * @example mixingRatio({ temperature_c: 20, relativeHumidity_pct: 50 }) // 7.243 g/kg
 */
export function mixingRatio(air: Air, airPressure_pa = standardPressure_pa, options: PressureOptions = {}): number {
  checkPositive('mixingRatio', 'air pressure', airPressure_pa, 'Pa');
  const vapour_pa = vapourPressure(air, options);
  if (vapour_pa >= airPressure_pa)
    throw new MoistureError(
      'mixingRatio',
      'out-of-range',
      `needs an air pressure above the vapour's ${vapour_pa} Pa, got ${airPressure_pa}; is it in pascal?`,
    );
  return (1000 * molarMassRatio * vapour_pa) / (airPressure_pa - vapour_pa);
}
