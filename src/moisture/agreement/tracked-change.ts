import { type Interval, mean, normal } from '../../statistics/index.js';
import { MoistureError } from '../moisture-error.js';

/** Walls below which a correlation of changes has no interval. */
export const fewestTracked = 4;

/** A wall's change, after less before, by two instruments, each in its own unit. */
export interface ChangeByBoth {
  readonly wall: string;
  readonly byCores: number;
  readonly byMeter: number;
}

/** Whether walls that changed more by cores changed more by the meter too. No unit is compared with another. */
export interface TrackedChange {
  /** Of the walls' changes; interval by Fisher's z. */
  readonly correlation: number;
  readonly interval: Interval;
  /** Walls of which both say the same direction. */
  readonly sameDirection: number;
  readonly walls: number;
}

/**
 * Does the meter's change by wall follow the cores'? A correlation is no agreement, but without one there is none; and it needs no
 * calibration. Both arms together: a difference between them enters it.
 *
 * @throws MoistureError `too-few` below four walls, `no-variation` where either instrument shows the same change throughout
 * @example
 * const byBoth = [[-3.1, -14], [-2.2, -8], [-0.4, -3], [0.3, 1], [-1.6, -9]];
 * trackedChange(byBoth.map(([byCores, byMeter], at) => ({ wall: `W${at}`, byCores, byMeter }))).correlation // 0.9739
 */
export function trackedChange(changes: readonly ChangeByBoth[], level = 0.95): TrackedChange {
  const where = 'trackedChange';
  const walls = changes.length;
  if (walls < fewestTracked)
    throw new MoistureError(where, 'too-few', `needs at least ${fewestTracked} walls with both changes, got ${walls}`);
  const cores = mean(changes.map(({ byCores }) => byCores));
  const meter = mean(changes.map(({ byMeter }) => byMeter));
  let [xx, yy, xy] = [0, 0, 0];
  for (const { byCores, byMeter } of changes) {
    xx += (byCores - cores) ** 2;
    yy += (byMeter - meter) ** 2;
    xy += (byCores - cores) * (byMeter - meter);
  }
  if (!(xx > 0 && yy > 0))
    throw new MoistureError(
      where,
      'no-variation',
      'needs changes that differ between walls; check for copied readings',
    );
  const correlation = Math.max(-1, Math.min(1, xy / Math.sqrt(xx * yy)));
  const half = normal().upperQuantile((1 - level) / 2) / Math.sqrt(walls - 3);
  const z = Math.atanh(correlation);
  const interval = { level, lower: Math.tanh(z - half), upper: Math.tanh(z + half) };
  const sameDirection = changes.filter(({ byCores, byMeter }) => Math.sign(byCores) === Math.sign(byMeter)).length;
  return { correlation, interval, sameDirection, walls };
}
