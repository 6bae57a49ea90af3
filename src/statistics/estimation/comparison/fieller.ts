/** Variances and covariance of two estimates, each times the squared quantile. */
export interface WidenedErrors {
  readonly numerator: number;
  readonly denominator: number;
  readonly covariance: number;
}

/**
 * Fieller's limits: the roots r of (a - r b)^2 = va - 2 r vab + r^2 vb, where they enclose a finite interval.
 *
 * @example fieller(1, 2, { numerator: 0.1, denominator: 0.1, covariance: 0 })
 */
export function fieller(
  a: number,
  b: number,
  { numerator: va, denominator: vb, covariance: vab }: WidenedErrors,
): { readonly lower: number; readonly upper: number } | undefined {
  const leading = b * b - vb;
  if (!(leading > 0)) return undefined;
  const middle = a * b - vab;
  const root = Math.sqrt(Math.max(0, va * leading + vb * a * a - 2 * a * b * vab + vab * vab));
  return { lower: (middle - root) / leading, upper: (middle + root) / leading };
}
