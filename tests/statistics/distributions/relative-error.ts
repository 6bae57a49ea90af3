/** Difference from the expected value as a share of it; 0 only for equality when 0 is expected. */
export function relativeError(actual: number, expected: number): number {
  if (actual === expected) return 0;
  return Math.abs(actual - expected) / Math.abs(expected);
}
