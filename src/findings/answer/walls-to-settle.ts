import type { Interval } from '../../statistics/index.js';

/**
 * About how many walls an arm would have to have for an interval no wider than the margin, which cannot include both zero and the
 * margin: the width of an interval falls by the root of the number of walls. Walls and readings are taken to be like those of the trial.
 *
 * @param walls in the larger arm
 * @param margin the smallest worthwhile difference, above 0, in the unit of the interval
 * @returns nothing where the interval is as narrow already
 * @example wallsToSettle({ level: 0.95, lower: -4, upper: 2 }, 10, 3) // 40
 */
export function wallsToSettle({ lower, upper }: Interval, walls: number, margin: number): number | undefined {
  const width = upper - lower;
  return width <= margin ? undefined : Math.ceil(walls * (width / margin) ** 2);
}
