import { kelvinAtZero } from '../air/absolute-temperature.js';
import { checkFinite, checkNotNegative } from '../checked-quantity.js';
import type { MarkedLimit, Source } from '../source-mark.js';
import { type DeliquescenceCurve, type DeliquescentSalt, deliquescenceCurves } from './deliquescence-curves.js';
import { checkCondition, type HumidCondition } from './humid-condition.js';

const salts = Object.keys(deliquescenceCurves) as readonly DeliquescentSalt[];

/**
 * The relative humidity at which a salt dissolves in the water that it draws from the air, in percent, good to 2 points; `'not known'` at
 * temperatures for which its source gives none. Mixed salts dissolve at less. Of salts that hold crystal water it is that of the hydrate which
 * is stable at the temperature: sodium sulfate without its water dissolves at 86.6 % and 20 °C.
 *
 * @throws MoistureError `not-finite`
 * @example deliquescenceHumidity('sodium chloride', 20) // 75.48
 * @example deliquescenceHumidity('ammonium nitrate', 5) // 'not known'
 * @source by salt, `sourceOfDeliquescence`
 */
export function deliquescenceHumidity(salt: DeliquescentSalt, temperature_c: number): number | 'not known' {
  checkFinite('deliquescenceHumidity', 'temperature', temperature_c);
  const curve: DeliquescenceCurve = deliquescenceCurves[salt];
  if (temperature_c < curve.from_c || temperature_c > curve.to_c) return 'not known';
  switch (curve.kind) {
    case 'polynomial':
      return curve.coefficients.reduceRight((sum, coefficient) => sum * temperature_c + coefficient, 0);
    case 'exponential':
      return curve.a * Math.exp(curve.b_k / (temperature_c + kelvinAtZero));
    case 'points':
      return between(curve.points, temperature_c);
  }
}

/**
 * Where a salt's deliquescence humidity comes from.
 *
 * @example sourceOfDeliquescence('ammonium nitrate').mark // 'seen'
 */
export function sourceOfDeliquescence(salt: DeliquescentSalt): Source {
  return deliquescenceCurves[salt].source;
}

export interface SaltsAtCondition {
  /** Nearest first. */
  readonly near: readonly {
    readonly salt: DeliquescentSalt;
    readonly humidity_pct: number;
    readonly source: Source;
  }[];
  /** Salts of which nothing is known at the temperature: they may be near as well. */
  readonly notKnown: readonly DeliquescentSalt[];
}

/** What the humidities are good to, and more than most chambers keep, percentage points. */
export const nearSalt_pp: MarkedLimit = { value: 2, mark: 'our convention' };

/**
 * Salts whose deliquescence is so close to a condition that a chamber a little off would give another moisture.
 *
 * @param within_pp how close counts as close, percentage points; 2 unless given
 * @throws MoistureError `out-of-range`, `not-finite`
 * @example saltsNearCondition({ setpoint_rh_pct: 75, temperature_c: 20 }).near.map(({ salt }) => salt) // ['sodium nitrate', 'sodium chloride']
 */
export function saltsNearCondition(condition: HumidCondition, within_pp = nearSalt_pp.value): SaltsAtCondition {
  const where = 'saltsNearCondition';
  checkCondition(where, condition);
  checkNotNegative(where, 'distance', within_pp, 'points');
  const { measured_rh_pct = condition.setpoint_rh_pct, temperature_c } = condition;
  const found = salts.map((salt) => ({ salt, humidity_pct: deliquescenceHumidity(salt, temperature_c) }));
  const known = found.flatMap(({ salt, humidity_pct }) =>
    humidity_pct === 'not known' ? [] : [{ salt, humidity_pct, apart_pp: Math.abs(humidity_pct - measured_rh_pct) }],
  );
  return {
    near: known
      .filter(({ apart_pp }) => apart_pp <= within_pp)
      .toSorted((one, other) => one.apart_pp - other.apart_pp)
      .map(({ salt, humidity_pct }) => ({ salt, humidity_pct, source: sourceOfDeliquescence(salt) })),
    notKnown: found.flatMap(({ salt, humidity_pct }) => (humidity_pct === 'not known' ? [salt] : [])),
  };
}

type Point = readonly [number, number];

/** On straight lines between points, the temperature being within their range. */
function between(points: readonly Point[], at: number): number {
  const index = Math.max(
    1,
    points.findIndex(([x]) => x >= at),
  );
  const [[from, lower], [to, upper]] = [points[index - 1] as Point, points[index] as Point];
  return lower + ((at - from) / (to - from)) * (upper - lower);
}
