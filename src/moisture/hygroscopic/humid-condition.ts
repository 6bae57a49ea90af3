import { relativeHumidityAsCounted } from '../../trial/index.js';
import { checkedHumidity } from '../air/absolute-temperature.js';
import { checkFinite } from '../checked-quantity.js';
import { MoistureError } from '../moisture-error.js';
import type { MarkedLimit } from '../source-mark.js';

/** The air that a sample was brought to equilibrium with. */
export interface HumidCondition {
  /** What the chamber or the salt solution was to give. */
  readonly setpoint_rh_pct: number;
  /** What was measured, where it was. */
  readonly measured_rh_pct?: number;
  readonly temperature_c: number;
}

/**
 * Measured humidities further apart than this are different conditions, in percentage points. Between 75 and 76 % common
 * salt dissolves, and the moisture can jump by many points.
 */
const humidityTolerance_pp: MarkedLimit = { value: 0.5, mark: 'our convention' };

/** Temperatures further apart than this are different conditions, °C. */
export const temperatureTolerance_c: MarkedLimit = { value: 2, mark: 'our convention' };

/**
 * Whether two samples were brought to equilibrium with the same air: one setpoint, and measurements that agree.
 *
 * @example isSameCondition({ setpoint_rh_pct: 75, temperature_c: 20 }, { setpoint_rh_pct: 76, temperature_c: 20 }) // false
 */
export function isSameCondition(one: HumidCondition, other: HumidCondition): boolean {
  const [first, second] = [one.measured_rh_pct, other.measured_rh_pct];
  const apart_pp =
    first === undefined || second === undefined
      ? 0
      : Math.abs(relativeHumidityAsCounted(first) - relativeHumidityAsCounted(second));
  const measuredAlike = apart_pp <= humidityTolerance_pp.value;
  return (
    relativeHumidityAsCounted(one.setpoint_rh_pct) === relativeHumidityAsCounted(other.setpoint_rh_pct) &&
    measuredAlike &&
    Math.abs(one.temperature_c - other.temperature_c) <= temperatureTolerance_c.value
  );
}

/** Refuses humidities that no hygrometer shows, and temperatures at which nothing is conditioned. */
export function checkCondition(where: string, condition: HumidCondition): void {
  const { setpoint_rh_pct, measured_rh_pct = setpoint_rh_pct, temperature_c } = condition;
  for (const humidity of [setpoint_rh_pct, measured_rh_pct]) checkedHumidity(where, humidity);
  checkFinite(where, 'temperature', temperature_c);
  if (!(temperature_c >= 0 && temperature_c <= 60))
    throw new MoistureError(
      where,
      'out-of-range',
      `needs a temperature from 0 to 60 °C, got ${temperature_c}; is it in °C?`,
    );
}

export function describeCondition({ setpoint_rh_pct, measured_rh_pct, temperature_c }: HumidCondition): string {
  const measured = measured_rh_pct === undefined ? '' : ` (measured ${measured_rh_pct} %)`;
  return `${setpoint_rh_pct} %${measured} at ${temperature_c} °C`;
}
