import { StatisticsError } from '../../statistics-error.js';
import type { IsotonicFit } from './isotonic-regression.js';

/** `step`: the value of the nearest fitted x at or below; `interpolated`: straight between neighbouring fitted x. */
export type BetweenPoints = 'step' | 'interpolated';

/**
 * An isotonic fit at any x inside the range of its observations.
 *
 * @throws StatisticsError `out-of-range` outside that range: the fit says nothing there
 * @example isotonicAt(isotonicRegression({ x: [1, 3], response: [2, 6] }, 'increasing'), 2, 'interpolated') // 4
 */
export function isotonicAt(fit: IsotonicFit, at: number, between: BetweenPoints): number {
  const [first, last] = [fit.x[0]!, fit.x.at(-1)!];
  if (!(at >= first && at <= last)) {
    const detail = `needs an x inside the observed ${first} to ${last}, got ${at}; the fit says nothing outside`;
    throw new StatisticsError('isotonicAt', 'out-of-range', detail);
  }
  const index = lastAtOrBelow(fit.x, at);
  const here = fit.fitted[index]!;
  if (between === 'step' || fit.x[index] === at) return here;
  const share = (at - fit.x[index]!) / (fit.x[index + 1]! - fit.x[index]!);
  return here + share * (fit.fitted[index + 1]! - here);
}

/** By halving; the first is at or below. */
function lastAtOrBelow(upward: readonly number[], at: number): number {
  let [below, above] = [0, upward.length];
  while (above - below > 1) {
    const middle = (below + above) >> 1;
    if (upward[middle]! <= at) below = middle;
    else above = middle;
  }
  return below;
}
