import type { ArmMeans } from '../../analysis/index.js';

/** The two sides' mean changes over walls. */
export interface SideChanges {
  readonly treated: number;
  readonly untreated: number;
}

/**
 * The two sides' mean changes, each wall counting once; absent where a side has no wall, or none was read before.
 *
 * @example sideChanges(armMeans(opinion)) // undefined, for none of its walls was left untreated
 */
export function sideChanges(arms: readonly ArmMeans[]): SideChanges | undefined {
  const [treated, untreated] = [meanChange(arms, 'treated'), meanChange(arms, 'untreated')];
  return treated === undefined || untreated === undefined ? undefined : { treated, untreated };
}

function meanChange(arms: readonly ArmMeans[], side: ArmMeans['side']): number | undefined {
  const chosen = arms.filter((arm) => arm.side === side && arm.before !== undefined);
  const walls = chosen.reduce((count, arm) => count + arm.walls, 0);
  return walls === 0 ? undefined : chosen.reduce((sum, arm) => sum + arm.change * arm.walls, 0) / walls;
}
