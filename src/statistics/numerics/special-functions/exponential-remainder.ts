/** exp(x) - 1 - x without cancellation near 0. */
export function exponentialRemainder(x: number): number {
  if (Math.abs(x) > 0.5) return Math.expm1(x) - x;
  let term = (x * x) / 2;
  let sum = term;
  for (let k = 3; Math.abs(term) > sum * 1e-17; k++) {
    term *= x / k;
    sum += term;
  }
  return sum;
}
