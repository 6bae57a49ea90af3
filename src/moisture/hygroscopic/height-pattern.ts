import { extremes, normal } from '../../statistics/index.js';
import { checkFinite, checkNotNegative, checkPositive } from '../checked-quantity.js';
import { MoistureError } from '../moisture-error.js';
import { heightShape, type ShapeOfHeights } from './height-shape.js';

export type { HeightShape } from './height-shape.js';

/** A moisture (total, hygroscopic or excess) at a height of one wall. */
export interface MoistureAtHeight {
  readonly height_mm: number;
  /** Percent by mass on the dry basis. */
  readonly value_pct: number;
  /** Of the value as standing for its height: measurement and place together. */
  readonly standardUncertainty_pp: number;
}

/** A value with its interval at the level of the comparisons. */
export interface PointInterval {
  readonly height_mm: number;
  readonly value_pct: number;
  readonly lower_pct: number;
  readonly upper_pct: number;
}

/** The shape, and the comparison that made it so. */
export interface HeightPattern extends ShapeOfHeights {
  /** Largest less smallest value. */
  readonly range_pp: number;
  /** At the lowest height. */
  readonly base: PointInterval;
  /** Where the value is largest; for `peaked`, the peak. */
  readonly highest: PointInterval;
}

export interface HeightPatternOptions {
  /** A difference between two heights that would matter, percentage points: `flat` means that all are surely smaller. */
  readonly relevantDifference_pp: number;
  /** Chance of calling a difference clear somewhere in the profile where there is none; 0.05 unless given. */
  readonly errorRate?: number;
}

const where = 'heightPattern';

/**
 * The shape of moisture over height, as far as its uncertainty lets one say.
 *
 * Two heights differ clearly where their difference exceeds z times its standard uncertainty, with z shared out over all
 * pairs (Bonferroni). Going up: `falling` where something clearly falls and nothing clearly rises; `rising` the other way
 * round; `peaked` where a height is clearly above one below and one above it, and no height clearly below both sides;
 * `flat` where nothing differs clearly and every difference is surely below the relevant one; otherwise `undecided`.
 * The rules are our own; no source. The uncertainties are taken as known and independent from height to height; of several walls,
 * whose spread has to tell, use `heightPatternOfWalls`.
 *
 * @throws MoistureError `too-few` for fewer than three heights; `out-of-order` where two are the same; `not-finite`,
 *   `out-of-range`
 * @example
 * const points = [[200, 12], [600, 9], [1000, 5]].map(([height_mm, value_pct]) => ({ height_mm, value_pct, standardUncertainty_pp: 0.4 }));
 * heightPattern(points, { relevantDifference_pp: 1 }).shape // 'falling'
 */
export function heightPattern(points: readonly MoistureAtHeight[], options: HeightPatternOptions): HeightPattern {
  const { relevantDifference_pp, errorRate } = checkedOptions(where, options);
  checkPoints(points);
  const upward = [...points].sort((one, other) => one.height_mm - other.height_mm);
  const pairs = (upward.length * (upward.length - 1)) / 2;
  const z = normal().upperQuantile(errorRate / pairs / 2);
  const values = upward.map((point) => point.value_pct);
  const { least, greatest } = extremes(values);
  const [base, highest] = [upward[0] as MoistureAtHeight, upward[values.indexOf(greatest)] as MoistureAtHeight];
  const between = (lower: number, upper: number) => {
    const [one, other] = [upward[lower] as MoistureAtHeight, upward[upper] as MoistureAtHeight];
    return {
      difference_pp: one.value_pct - other.value_pct,
      reach_pp: z * Math.hypot(one.standardUncertainty_pp, other.standardUncertainty_pp),
    };
  };
  return {
    ...heightShape(upward.length, between, relevantDifference_pp),
    range_pp: greatest - least,
    base: intervalAt(base, z),
    highest: intervalAt(highest, z),
  };
}

/** With the usual error rate where none is given. */
export function checkedOptions(where: string, options: HeightPatternOptions): Required<HeightPatternOptions> {
  const { relevantDifference_pp, errorRate = 0.05 } = options;
  checkPositive(where, 'relevant difference', relevantDifference_pp, 'points');
  if (!(errorRate > 0 && errorRate < 1))
    throw new MoistureError(where, 'out-of-range', `needs an error rate between 0 and 1, got ${errorRate}`);
  return { relevantDifference_pp, errorRate };
}

function intervalAt({ height_mm, value_pct, standardUncertainty_pp }: MoistureAtHeight, z: number): PointInterval {
  const reach_pp = z * standardUncertainty_pp;
  return { height_mm, value_pct, lower_pct: value_pct - reach_pp, upper_pct: value_pct + reach_pp };
}

function checkPoints(points: readonly MoistureAtHeight[]): void {
  if (points.length < 3)
    throw new MoistureError(
      where,
      'too-few',
      `needs at least 3 heights, got ${points.length}; a line through two is no profile`,
    );
  for (const { height_mm, value_pct, standardUncertainty_pp } of points) {
    checkFinite(where, 'height', height_mm);
    checkFinite(where, 'moisture', value_pct);
    checkNotNegative(where, 'standard uncertainty', standardUncertainty_pp, 'points');
  }
  if (new Set(points.map(({ height_mm }) => height_mm)).size < points.length)
    throw new MoistureError(
      where,
      'out-of-order',
      'needs one point at each height; average the cores of a height first',
    );
}
