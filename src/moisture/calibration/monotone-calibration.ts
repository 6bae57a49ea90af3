import { type IsotonicFit, isotonicAt, isotonicRegression } from '../../statistics/index.js';
import { MoistureError } from '../moisture-error.js';
import type { ReadingRises } from './calibration-of-line.js';
import type { CalibrationPair } from './calibration-pairs.js';
import { checkCalibrationPairs } from './check-calibration-pairs.js';
import { type UnseenWalls, unseenWalls } from './unseen-walls.js';

/** Moisture as a curve of the reading that never turns back, where a straight line is too much to ask of a meter. */
export interface MonotoneCalibration {
  readonly material: string;
  /** x is the reading, the fit the moisture. */
  readonly fit: IsotonicFit;
  readonly pairs: readonly CalibrationPair[];
  /** Of the readings: outside there is no answer. */
  readonly range: { readonly from: number; readonly to: number };
  readonly onUnseenWalls: UnseenWalls;
}

/**
 * The alternative to `calibrateMeter` that assumes only that a wetter place never reads lower: least squares of moisture
 * on reading among curves that never fall (or, for a meter that falls with moisture, never rise). It treats the readings as exact and carries no interval; its worth is the prediction
 * error on walls left out, beside that of the line.
 *
 * @throws MoistureError as `calibrateMeter`, and `reversed` where the curve is level throughout
 * @example monotoneCalibration(pairs).onUnseenWalls.rootMeanSquare // 1.097
 */
export function monotoneCalibration(
  pairs: readonly CalibrationPair[],
  { readingRises = 'with-moisture' }: { readonly readingRises?: ReadingRises } = {},
): MonotoneCalibration {
  const where = 'monotoneCalibration';
  checkCalibrationPairs(where, pairs);
  const fit = fitOf(pairs, readingRises);
  if (fit.levels.length < 2)
    throw new MoistureError(
      where,
      'reversed',
      `needs readings that ${readingRises === 'with-moisture' ? 'rise' : 'fall'} with moisture; check the columns`,
    );
  const predicted = new Map<CalibrationPair, number>();
  // Sorted once, each fit without a wall finds its pairs in order.
  const inOrder = pairs.toSorted((one, other) => one.reading - other.reading);
  for (const wall of new Set(pairs.map((pair) => pair.wall))) {
    const without = fitOf(
      inOrder.filter((pair) => pair.wall !== wall),
      readingRises,
    );
    for (const pair of pairs) if (pair.wall === wall) predicted.set(pair, atEnds(without, pair.reading));
  }
  return {
    material: pairs[0]?.material ?? '',
    fit,
    pairs,
    range: { from: fit.x[0] as number, to: fit.x.at(-1) as number },
    onUnseenWalls: unseenWalls(
      pairs,
      pairs.map((pair) => predicted.get(pair) as number),
    ),
  };
}

function fitOf(pairs: readonly CalibrationPair[], readingRises: ReadingRises): IsotonicFit {
  const data = { x: pairs.map(({ reading }) => reading), response: pairs.map(({ moisture }) => moisture) };
  return isotonicRegression(data, readingRises === 'with-moisture' ? 'increasing' : 'decreasing');
}

/** A reading beyond those of the other walls gets the moisture at their end. */
function atEnds(fit: IsotonicFit, reading: number): number {
  const [from, to] = [fit.x[0] as number, fit.x.at(-1) as number];
  return isotonicAt(fit, Math.min(to, Math.max(from, reading)), 'interpolated');
}
