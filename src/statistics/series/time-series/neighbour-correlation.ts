/**
 * Correlation of neighbours some typical gaps apart, where it is `correlation` one typical gap apart: its power, which for
 * a negative correlation keeps the sign, so that neighbours alternate however far apart they are.
 *
 * Every value resembles the past through its neighbour only, so that any such numbers make a valid series.
 *
 * @example neighbourCorrelation(0.8, 2) // 0.64
 */
export function neighbourCorrelation(correlation: number, gap: number): number {
  return Math.sign(correlation) * Math.abs(correlation) ** gap;
}
