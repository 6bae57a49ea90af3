/**
 * log(1 + z) - z without cancellation, for z > -1: the part of a logarithm that curvature makes.
 *
 * With r = z / (2 + z) it is -r z + 2 (r^3/3 + r^5/5 + ...), the inverse hyperbolic tangent without its leading term.
 */
export function logRemainder(z: number): number {
  if (z < -0.4 || z > 0.8) return Math.log1p(z) - z;
  const ratio = z / (2 + z);
  const square = ratio * ratio;
  let power = ratio;
  let sum = 0;
  for (let odd = 3; ; odd += 2) {
    power *= square;
    const next = sum + power / odd;
    // Written so that what is no number ends the sum as well.
    if (!(next < sum || next > sum)) return 2 * sum - ratio * z;
    sum = next;
  }
}
