import { type DifferenceErrors, differenceErrors, type PlannedComparison } from './difference-errors.js';
import { halfWidthsOf } from './interval-law.js';
import { chancesOfErrors } from './verdict-chances.js';

/**
 * The width that the interval of the difference has on average, where there is one.
 *
 * @throws PlanningError `out-of-range`
 * @example expectedWidth(inPairs) // 1.968
 */
export function expectedWidth(planned: PlannedComparison): number {
  return widthOfErrors(differenceErrors(planned));
}

export function widthOfErrors(errors: DifferenceErrors): number {
  const whole = errors.reduce((sum, { probability }) => sum + probability, 0);
  return errors.reduce((sum, { probability, standardError, law }) => {
    const mean = halfWidthsOf(law).reduce((total, node) => total + node.probability * node.halfWidth, 0);
    return sum + (probability / whole) * 2 * standardError * mean;
  }, 0);
}

/** Smaller effects than this share of the one found are the same. */
const precision = 1e-9;
/** Where no effect below so many standard errors is shown, drop-out leaves too few walls too often. */
const mostErrors = 1e4;

/**
 * The smallest effect that the interval would exclude zero for, on the better side, with the chance stated.
 *
 * @param chance above half of one less the level
 * @returns undefined where drop-out leaves too few walls for any effect to be shown so often
 * @throws PlanningError `out-of-range`
 * @example smallestShown(inPairs, 0.8) // 1.4086
 */
export function smallestShown(planned: PlannedComparison, chance: number): number | undefined {
  const errors = differenceErrors(planned);
  const chancesOf = chancesOfErrors(errors, undefined);
  const shown = (effect: number) => chancesOf(effect)['some-effect'] >= chance;
  const unit = Math.max(0, ...errors.map(({ standardError }) => standardError));
  let [low, high] = [0, unit];
  while (!shown(high)) {
    if (!(high < mostErrors * unit)) return undefined;
    [low, high] = [high, 2 * high];
  }
  while (high - low > precision * high) {
    const middle = (low + high) / 2;
    if (shown(middle)) high = middle;
    else low = middle;
  }
  return high;
}
