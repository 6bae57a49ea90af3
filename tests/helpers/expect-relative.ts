import { expect } from 'vitest';

/** Passes where `found` is within `tolerance` of `expected`, relative to it. */
export function expectRelative(found: number | undefined, expected: number, tolerance: number, what = 'value'): void {
  const error = Math.abs((found ?? Number.NaN) - expected) / Math.abs(expected);
  expect(error, `${what}: found ${found}, expected ${expected}`).toBeLessThanOrEqual(tolerance);
}
