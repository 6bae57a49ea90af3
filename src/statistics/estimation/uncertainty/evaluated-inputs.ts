import { checkFinite, checkSample } from '../../checked-input.js';
import { StatisticsError } from '../../statistics-error.js';
import { mean } from '../summaries/mean.js';
import { standardDeviation } from '../summaries/standard-deviation.js';
import type { InputQuantity } from './input-quantity.js';

/**
 * An input that was read several times (evaluation of type A): the mean, its standard uncertainty s/√n, and n − 1
 * degrees of freedom.
 *
 * @throws StatisticsError `too-few` for fewer than two readings, `not-finite`
 * @example inputFromReadings('length', [10.1, 10.3, 10.2]).standardUncertainty // 0.0577
 * @source JCGM 100:2008, 4.2 (from memory)
 */
export function inputFromReadings<Name extends string>(name: Name, readings: readonly number[]): InputQuantity<Name> {
  checkSample('inputFromReadings', `the readings of ${name}`, readings, 2);
  return {
    name,
    value: mean(readings),
    standardUncertainty: standardDeviation(readings) / Math.sqrt(readings.length),
    distribution: 'student-t',
    degreesOfFreedom: readings.length - 1,
  };
}

/** Variance of each shape on −1 to 1. */
const varianceOnUnitHalfWidth = { rectangular: 1 / 3, triangular: 1 / 6, arcsine: 1 / 2 } as const;

/**
 * An input of which only limits are known (evaluation of type B): value ± half-width, with standard uncertainty a/√3
 * (rectangular: anything inside the limits is equally likely), a/√6 (triangular: the middle is likelier) or a/√2
 * (arcsine: it swings between the limits).
 *
 * @throws StatisticsError `not-finite`; `out-of-range` for a negative half-width
 * @example inputFromHalfWidth('temperature', 0, 0.05, 'rectangular').standardUncertainty // 0.0289
 * @source JCGM 100:2008, 4.3.7 and 4.3.9; the arcsine: JCGM 101:2008, 6.4.6 (from memory)
 */
export function inputFromHalfWidth<Name extends string>(
  name: Name,
  value: number,
  halfWidth: number,
  distribution: keyof typeof varianceOnUnitHalfWidth,
): InputQuantity<Name> {
  checkFinite('inputFromHalfWidth', `value of ${name}`, value);
  checkFinite('inputFromHalfWidth', `half-width of ${name}`, halfWidth);
  if (halfWidth < 0)
    throw new StatisticsError(
      'inputFromHalfWidth',
      'out-of-range',
      `needs a half-width of zero or more for ${name}, got ${halfWidth}`,
    );
  const standardUncertainty = halfWidth * Math.sqrt(varianceOnUnitHalfWidth[distribution]);
  return { name, value, standardUncertainty, distribution };
}
