import { neighboursIn } from '../../plain/in-order.js';
import {
  extremes,
  type Interval,
  type NonlinearFit,
  nonlinearLeastSquares,
  profileInterval,
} from '../../statistics/index.js';
import { MoistureError } from '../moisture-error.js';
import { fallsClearly } from './clear-fall.js';
import { dampFrontByOrder } from './damp-front-by-order.js';
import { checkPoints, heightsOf, type MoistureAtPoint } from './moisture-at-point.js';

/** A smooth front: damp below, drier above, half way at `height_mm`. */
export interface DampFront {
  readonly method: 'logistic';
  readonly height_mm: number;
  /** In mm. From the profile of the sum of squares: it need not be symmetric. */
  readonly interval: Interval;
  /** Sides on which the readings do not limit the front inside the measured heights: the interval ends there with the readings. */
  readonly openTowards: readonly ('below' | 'above')[];
  readonly below_pct: number;
  readonly above_pct: number;
  /** 76 % of the fall lies within twice this to either side, tanh(1) of it. */
  readonly width_mm: number;
  readonly heights: number;
  readonly fit: NonlinearFit<FrontParameter, number>;
}

export type FrontParameter = 'below' | 'above' | 'front' | 'width';

const where = 'dampFront';
const noFall =
  'needs a clear fall with height, got scatter that hides it: a front may lie below the lowest height or above the highest';

/**
 * Height of the damp front in one wall at one visit, u = above + (below − above)/(1 + exp((h − front)/width)), by least squares,
 * with the interval of its profile. Readings at the same height count singly; the scatter about the curve is taken as the same
 * at every height and independent between points. A front is a description of the profile and says nothing of its cause.
 *
 * In simulated walls its 95 % interval held a front half way up 93 to 100 times in 100, and level walls were given a front in 3 of 100
 * at most; a straight fall is given one in up to half of the walls, nearly always open to one side or both (`openTowards`). A front near
 * the lowest or highest of five heights is seldom found: tests/simulation/front.md.
 *
 * @param options.level of the interval, 0.95 unless given
 * @throws MoistureError `too-few` below five heights, or where the fall is sharper than the heights are close; `reversed` where
 *   moisture rises with height; `no-front`, with the side, where it lies outside the measured heights or nothing clearly falls
 *   (Student's t of the straight line's slope, one-sided at 5 %); `not-finite`
 * @throws StatisticsError where there is a fall but no such curve can be fitted or followed: `not-converged`, `collinear`; `no-variation`
 *   where the points lie on a curve exactly
 * @example
 * const heights = [100, 300, 500, 700, 900, 1100, 1300];
 * const points = [14.8, 14.6, 13.1, 8.9, 5.2, 3.4, 3.1].map((value_pct, at) => ({ height_mm: heights[at], value_pct }));
 * dampFront(points).height_mm // 701.5
 */
export function dampFront(points: readonly MoistureAtPoint[], options: { readonly level?: number } = {}): DampFront {
  checkPoints(where, points, 5);
  const order = dampFrontByOrder(points);
  if (!fallsClearly(points)) throw new MoistureError(where, 'no-front', noFall);
  const heights = heightsOf(points);
  const { least: lowest, greatest: highest } = extremes(heights);
  const closest = Math.min(...neighboursIn(heights).map(([lower, upper]) => upper - lower));
  const start = { below: order.below_pct, above: order.above_pct, front: order.height_mm };
  const range = highest - lowest;
  const narrowest = closest / 20;
  const fit = nonlinearLeastSquares<FrontParameter, number>({
    model: ({ below, above, front, width }, height) => above + (below - above) * dampShare(height, front, width),
    gradient: slopesOfFront,
    x: points.map(({ height_mm }) => height_mm),
    response: points.map(({ value_pct }) => value_pct),
    start: [range / 10, range / 25, range / 5].map((width) => ({ ...start, width: Math.max(width, 2 * narrowest) })),
    bounds: { front: { lower: lowest, upper: highest }, width: { lower: narrowest, upper: 2 * range } },
  });
  checkInside(fit, lowest, highest);
  const interval = profileInterval(fit, 'front', options);
  const { below, above, front, width } = fit.estimates;
  return {
    method: 'logistic',
    height_mm: front,
    interval,
    openTowards: [
      ...(interval.lower <= lowest ? (['below'] as const) : []),
      ...(interval.upper >= highest ? (['above'] as const) : []),
    ],
    below_pct: below,
    above_pct: above,
    width_mm: width,
    heights: heights.length,
    fit,
  };
}

/** How much of the fall is still to come at a height: near 1 below the front, 1/2 at it, near 0 above. */
function dampShare(height: number, front: number, width: number): number {
  return 1 / (1 + Math.exp((height - front) / width));
}

function slopesOfFront(
  { below, above, front, width }: Readonly<Record<FrontParameter, number>>,
  height: number,
): Readonly<Record<FrontParameter, number>> {
  const share = dampShare(height, front, width);
  const moved = ((below - above) * share * (1 - share)) / width;
  return { below: share, above: 1 - share, front: moved, width: (moved * (height - front)) / width };
}

function checkInside(fit: NonlinearFit<FrontParameter, number>, lowest: number, highest: number): void {
  for (const { name, bound } of fit.held) {
    if (name === 'width' && bound === 'lower') {
      const detail = 'needs heights inside the fall, got a front sharper than they are close; use dampFrontByOrder';
      throw new MoistureError(where, 'too-few', detail);
    }
    const side = bound === 'lower' ? `below the lowest height, ${lowest} mm` : `above the highest, ${highest} mm`;
    if (name === 'front')
      throw new MoistureError(where, 'no-front', `needs a front inside the measured heights, got one ${side}`);
  }
  const spread = fit.held.find(({ name }) => name === 'width');
  if (spread !== undefined)
    throw new MoistureError(
      where,
      'no-front',
      'needs a front inside the measured heights, got a slope that goes on past both ends',
    );
}
