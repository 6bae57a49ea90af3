import { checkFinite } from '../checked-quantity.js';
import { MoistureError } from '../moisture-error.js';
import type { Source } from '../source-mark.js';
import { checkTemperature } from './absolute-temperature.js';

/** p = p₀·exp(a·t/(b + t)), in pascal with t in °C, between two temperatures. */
interface MagnusCurve {
  readonly atZero_pa: number;
  readonly a: number;
  readonly b_c: number;
  readonly from_c: number;
  readonly to_c: number;
  readonly source: Source;
}

export type PressureFormula = 'magnus' | 'iso-13788';
export type SaturatedOver = 'water' | 'ice';

/**
 * The two agree to 0.3 % between 0 and 30 °C. Over water, `magnus` also holds for supercooled water; `iso-13788` changes to
 * ice at 0 °C. The ranges of `iso-13788`, and of both over ice, are our own limits.
 */
const curves: Readonly<Record<PressureFormula, Readonly<Record<SaturatedOver, MagnusCurve>>>> = {
  magnus: {
    water: {
      atZero_pa: 611.2,
      a: 17.62,
      b_c: 243.12,
      from_c: -45,
      to_c: 60,
      source: { document: 'WMO No. 8, Magnus formula over water', mark: 'seen' },
    },
    ice: {
      atZero_pa: 611.2,
      a: 22.46,
      b_c: 272.62,
      from_c: -65,
      to_c: 0,
      source: { document: 'WMO No. 8, Magnus formula over ice', mark: 'from memory' },
    },
  },
  'iso-13788': {
    water: {
      atZero_pa: 610.5,
      a: 17.269,
      b_c: 237.3,
      from_c: 0,
      to_c: 60,
      source: { document: 'EN ISO 13788, t of 0 °C and more', mark: 'from memory' },
    },
    ice: {
      atZero_pa: 610.5,
      a: 21.875,
      b_c: 265.5,
      from_c: -45,
      to_c: 0,
      source: { document: 'EN ISO 13788, t below 0 °C', mark: 'from memory' },
    },
  },
};

export interface PressureOptions {
  /** `magnus` unless given. */
  readonly formula?: PressureFormula;
  /** Unless given, `water` for `magnus`, and for `iso-13788` as the standard has it: ice below 0 °C. */
  readonly over?: SaturatedOver;
}

/**
 * Saturation pressure of water vapour, in pascal.
 *
 * @throws MoistureError `not-finite`; `out-of-range` below absolute zero or outside the formula's range
 * @example saturationPressure(20) // 2332.6 Pa
 */
export function saturationPressure(temperature_c: number, options: PressureOptions = {}): number {
  const { atZero_pa, a, b_c, from_c, to_c } = curveOf(options, temperature_c < 0);
  checkTemperature('saturationPressure', temperature_c, from_c, to_c);
  return atZero_pa * Math.exp((a * temperature_c) / (b_c + temperature_c));
}

/**
 * The temperature at which a vapour pressure saturates, in °C: the inverse of `saturationPressure`.
 *
 * @throws MoistureError `not-finite`; `out-of-range` for a pressure of zero or less, or a temperature outside the range
 * @example saturationTemperature(1166.3) // 9.255 °C
 */
export function saturationTemperature(pressure_pa: number, options: PressureOptions = {}): number {
  const where = 'saturationTemperature';
  checkFinite(where, 'vapour pressure', pressure_pa);
  if (!(pressure_pa > 0))
    throw new MoistureError(where, 'out-of-range', `needs a vapour pressure above 0 Pa, got ${pressure_pa}`);
  const { atZero_pa, a, b_c, from_c, to_c } = curveOf(options, pressure_pa < curveOf(options, false).atZero_pa);
  const logRatio = Math.log(pressure_pa / atZero_pa);
  const temperature_c = (b_c * logRatio) / (a - logRatio);
  // A temperature at the very end of the range may come back a rounding error beyond it.
  const slack_c = 1e-9;
  if (!(logRatio < a && temperature_c >= from_c - slack_c && temperature_c <= to_c + slack_c))
    throw new MoistureError(
      where,
      'out-of-range',
      `needs a vapour pressure that saturates between ${from_c} and ${to_c} °C, got ${pressure_pa} Pa`,
    );
  return temperature_c;
}

/**
 * Where the coefficients of a formula come from.
 *
 * @example sourceOfPressure('iso-13788', 'water').mark // 'from memory'
 */
export function sourceOfPressure(formula: PressureFormula, over: SaturatedOver): Source {
  return curves[formula][over].source;
}

function curveOf({ formula = 'magnus', over }: PressureOptions, belowZero: boolean): MagnusCurve {
  return curves[formula][over ?? (formula === 'iso-13788' && belowZero ? 'ice' : 'water')];
}
