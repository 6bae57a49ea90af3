import { DryingError } from './drying-error.js';

/** Refuses a number that is not finite and above zero. */
export function checkPositive(where: string, name: string, value: number, unit: string): void {
  if (value > 0 && Number.isFinite(value)) return;
  throw new DryingError(where, 'out-of-range', `needs a ${name} above 0 ${unit}, got ${value}`);
}
