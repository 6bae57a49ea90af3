/** Digits that agree with a certified value, at most the 15 that NIST prints. */
export function logRelativeError(found: number, certified: number): number {
  if (found === certified) return 15;
  return Math.min(15, -Math.log10(Math.abs(found - certified) / (Math.abs(certified) || 1)));
}
