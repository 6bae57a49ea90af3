import { chiSquare } from '../../distributions/chi-square.js';
import type { Interval } from '../../interval.js';

/** A mean square that enters a variance with a positive weight. */
export interface WeightedSquare {
  readonly weight: number;
  readonly meanSquare: number;
  readonly degreesOfFreedom: number;
}

/**
 * A variance that is a sum of independent mean squares with positive weights, and its interval by recovering variance
 * estimates from the chi-square intervals of the single ones. With one mean square this is the chi-square interval itself.
 *
 * @source Zou 2013, Stat. Methods Med. Res. 22:630-642 (from memory)
 */
export function varianceSum(squares: readonly WeightedSquare[], level: number): { value: number; interval: Interval } {
  let [value, below, above] = [0, 0, 0];
  for (const { weight, meanSquare, degreesOfFreedom } of squares) {
    const part = weight * meanSquare;
    const chances = chiSquare(degreesOfFreedom);
    value += part;
    below += (part - (part * degreesOfFreedom) / chances.upperQuantile((1 - level) / 2)) ** 2;
    above += ((part * degreesOfFreedom) / chances.quantile((1 - level) / 2) - part) ** 2;
  }
  const interval = { level, lower: Math.max(0, value - Math.sqrt(below)), upper: value + Math.sqrt(above) };
  return { value, interval };
}
