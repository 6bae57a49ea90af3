import { kelvinAtZero } from '../air/absolute-temperature.js';
import { MoistureError } from '../moisture-error.js';
import { checkCondition, type HumidCondition } from './humid-condition.js';

/**
 * Relative humidity over a saturated salt solution, in percent: A·exp(B/T), T in kelvin. Good to about ±2 %.
 *
 * @source Wexler, "Constant humidity solutions", handbook table seen; it names Greenspan 1977 among its sources
 */
const constants = {
  'magnesium chloride': { a: 29.26, b: 34, from_c: 5, to_c: 45 },
  'calcium nitrate': { a: 1.89, b: 981, from_c: 10, to_c: 30 },
  'magnesium nitrate': { a: 25.28, b: 220, from_c: 5, to_c: 35 },
  'sodium nitrate': { a: 26.94, b: 302, from_c: 10, to_c: 40 },
  'sodium chloride': { a: 69.2, b: 25, from_c: 10, to_c: 40 },
  'potassium chloride': { a: 49.38, b: 159, from_c: 5, to_c: 25 },
  'potassium nitrate': { a: 43.22, b: 225, from_c: 0, to_c: 50 },
  'potassium sulfate': { a: 86.75, b: 34, from_c: 10, to_c: 50 },
} as const;

export type DeliquescentSalt = keyof typeof constants;

/**
 * The relative humidity at which a salt dissolves in the water that it draws from the air, in percent, ± 2 %. Mixed salts
 * dissolve at less.
 *
 * @throws MoistureError `out-of-range` outside the salt's range of temperatures
 * @example deliquescenceHumidity('sodium chloride', 20) // 75.4
 */
export function deliquescenceHumidity(salt: DeliquescentSalt, temperature_c: number): number {
  const { a, b, from_c, to_c } = constants[salt];
  if (!(temperature_c >= from_c && temperature_c <= to_c))
    throw new MoistureError(
      'deliquescenceHumidity',
      'out-of-range',
      `needs ${from_c} to ${to_c} °C for ${salt}, got ${temperature_c}`,
    );
  return a * Math.exp(b / (temperature_c + kelvinAtZero));
}

/**
 * Salts whose deliquescence is so close to a condition that a chamber a little off would give another moisture.
 *
 * @param within_pp how close counts as close, percentage points; 1.5 unless given
 * @throws MoistureError `out-of-range`
 * @example saltsNearCondition({ setpoint_rh_pct: 75, temperature_c: 20 }) // ['sodium nitrate', 'sodium chloride']
 */
export function saltsNearCondition(condition: HumidCondition, within_pp = 1.5): readonly DeliquescentSalt[] {
  checkCondition('saltsNearCondition', condition);
  const { measured_rh_pct = condition.setpoint_rh_pct, temperature_c } = condition;
  return (Object.keys(constants) as DeliquescentSalt[]).filter((salt) => {
    const { from_c, to_c } = constants[salt];
    if (temperature_c < from_c || temperature_c > to_c) return false;
    return Math.abs(deliquescenceHumidity(salt, temperature_c) - measured_rh_pct) <= within_pp;
  });
}
