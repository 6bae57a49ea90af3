import { checkNotNegative } from '../checked-quantity.js';
import { MoistureError } from '../moisture-error.js';
import type { GravimetricBudget } from './gravimetric-budget.js';

/** How well one core, or the mean of several, stands for the part of the wall that it was taken from. */
export interface CoreForItsWall {
  readonly value: number;
  /** Of the measurement alone, from its budget. */
  readonly measurement_pp: number;
  /** Of the place: the standard deviation between places over √cores. */
  readonly place_pp: number;
  readonly standardUncertainty_pp: number;
  /** Share of the variance that is due to the place. */
  readonly placeShareOfVariance: number;
}

/**
 * Adds the variation between places in a wall to the measurement's own uncertainty, for a core that has to speak for its
 * wall by itself. For description only: where stations are compared, their spread already holds this, and handing it on
 * would count it twice.
 *
 * @param withinWall_pp standard deviation between places of one wall, percentage points on the dry basis
 * @param cores how many places were averaged; 1 unless given. The measurement's uncertainty is not divided: part of it
 *   is the same for all cores.
 * @throws MoistureError `out-of-range`, `not-finite`
 * @example coreForItsWall(gravimetricBudget(core, errors), 0.8).standardUncertainty_pp // 0.8211
 */
export function coreForItsWall(budget: GravimetricBudget, withinWall_pp: number, cores = 1): CoreForItsWall {
  checkNotNegative('coreForItsWall', 'standard deviation within the wall', withinWall_pp, 'points');
  if (!(Number.isInteger(cores) && cores >= 1))
    throw new MoistureError('coreForItsWall', 'out-of-range', `needs a whole number of cores from 1, got ${cores}`);
  const measurement_pp = budget.standardUncertainty;
  const place_pp = withinWall_pp / Math.sqrt(cores);
  const standardUncertainty_pp = Math.hypot(measurement_pp, place_pp);
  return {
    value: budget.value,
    measurement_pp,
    place_pp,
    standardUncertainty_pp,
    placeShareOfVariance: standardUncertainty_pp === 0 ? 0 : (place_pp / standardUncertainty_pp) ** 2,
  };
}
