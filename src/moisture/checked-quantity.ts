import { MoistureError } from './moisture-error.js';

/** Refuses a number that is not finite. */
export function checkFinite(where: string, name: string, value: number): void {
  if (!Number.isFinite(value)) throw new MoistureError(where, 'not-finite', `needs a finite ${name}, got ${value}`);
}

/** Refuses a number that is not finite and above zero. */
export function checkPositive(where: string, name: string, value: number, unit: string): void {
  checkFinite(where, name, value);
  if (!(value > 0)) throw new MoistureError(where, 'out-of-range', `needs a ${name} above 0 ${unit}, got ${value}`);
}

/** Refuses a number that is not finite and zero or more. */
export function checkNotNegative(where: string, name: string, value: number, unit: string): void {
  checkFinite(where, name, value);
  if (value < 0)
    throw new MoistureError(where, 'out-of-range', `needs a ${name} of 0 ${unit} or more, got ${value} ${unit}`);
}

/** Refuses masses of which the dry one is not heavier than its container. */
export function checkDryMass(where: string, container_g: number, dry_g: number): void {
  checkNotNegative(where, 'container mass', container_g, 'g');
  checkFinite(where, 'dry mass', dry_g);
  if (!(dry_g > container_g))
    throw new MoistureError(
      where,
      'out-of-range',
      `needs a dry mass above the container's, got ${dry_g} g and ${container_g} g`,
    );
}
