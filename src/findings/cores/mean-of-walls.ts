import { type Interval, mean, standardDeviation, studentT } from '../../statistics/index.js';

/** A mean with walls as the units, and Student's interval where there are at least two. */
export interface MeanOfWalls {
  readonly mean: number;
  readonly walls: number;
  readonly interval?: Interval;
}

/** Of one number a wall; nothing where there is none. */
export function meanOfWalls(values: readonly number[], level: number): MeanOfWalls | undefined {
  const walls = values.length;
  if (walls === 0) return undefined;
  const centre = mean(values);
  if (walls === 1) return { mean: centre, walls };
  const half = (studentT(walls - 1).upperQuantile((1 - level) / 2) * standardDeviation(values)) / Math.sqrt(walls);
  return { mean: centre, walls, interval: { level, lower: centre - half, upper: centre + half } };
}
