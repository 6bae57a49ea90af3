/**
 * Half the Poisson deviance, observed * log(observed / expected) - (observed - expected), without cancellation.
 *
 * The difference is an argument of its own because the caller usually knows it more exactly than a subtraction of
 * rounded numbers would give it. Published idea: C. Loader, "Fast and accurate computation of binomial
 * probabilities" (2000).
 */
export function deviance(observed: number, expected: number, difference: number): number {
  if (expected === 0) return observed === 0 ? 0 : Number.POSITIVE_INFINITY;
  const ratio = difference / (observed + expected);
  if (Math.abs(ratio) > 0.3) return observed * Math.log(observed / expected) - difference;
  const square = ratio * ratio;
  let power = ratio;
  let sum = 0;
  for (let odd = 3; ; odd += 2) {
    power *= square;
    const next = sum + power / odd;
    if (next === sum) return difference * ratio + 2 * observed * sum;
    sum = next;
  }
}
