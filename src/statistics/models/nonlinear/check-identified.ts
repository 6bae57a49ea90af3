import { StatisticsError } from '../../statistics-error.js';
import type { Curve } from './curve.js';
import { movingFactor } from './moving-factor.js';
import type { Point } from './point.js';

/**
 * Derivatives closer than this to the span of those before them cannot be distinguished from dependent ones: differences give them to
 * about 1e-12, and Bennett5, the hardest of the NIST sets in this, stands at 5e-5.
 */
const DEPENDENT_BELOW = 1e-9;

/** @throws StatisticsError `collinear` where a parameter changes nothing, or nothing that those before it do not change as well */
export function checkIdentified(where: string, { names }: Curve, point: Point, moving: readonly number[]): void {
  const { independence } = movingFactor(point, moving);
  const dependent = independence.findIndex((share) => share < DEPENDENT_BELOW);
  if (dependent < 0) return;
  const quoted = moving.map((parameter) => `"${names[parameter]}" = ${point.values[parameter]!.toPrecision(4)}`);
  const still = independence[dependent] === 0;
  const does = still
    ? 'changes nothing'
    : `changes nothing that ${quoted.slice(0, dependent).join(', ')} do not change as well`;
  const detail = `needs parameters that can be distinguished: ${quoted[dependent]} ${does}; start elsewhere, set bounds, or write a known value into the model`;
  throw new StatisticsError(where, 'collinear', detail);
}
