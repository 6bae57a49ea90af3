import { checkFinite, checkLevel } from '../../checked-input.js';
import { normal } from '../../distributions/normal.js';
import { studentT } from '../../distributions/student-t.js';
import type { Interval } from '../../interval.js';
import { StatisticsError } from '../../statistics-error.js';

/** A straight line y = intercept + slope x, with what is needed to carry its uncertainty to any point of it. */
export interface FittedLine {
  readonly slope: number;
  readonly intercept: number;
  readonly slopeInterval: Interval;
  readonly interceptInterval: Interval;
  /** A point on the line amid the data; the uncertainties are kept there, where they hardly depend on each other. */
  readonly centre: { readonly x: number; readonly y: number };
  readonly uncertainty: {
    readonly varianceAtCentre: number;
    readonly varianceOfSlope: number;
    readonly covariance: number;
  };
  /** For Student's t; absent where the uncertainties were given and are taken as known. */
  readonly degreesOfFreedom?: number;
  readonly n: number;
  /** Smallest and largest x seen: outside it the line is a guess. */
  readonly range: { readonly from: number; readonly to: number };
}

/** A value of y at an x. */
export interface LinePrediction {
  readonly estimate: number;
  readonly standardError: number;
  readonly interval: Interval;
  /** Whether x lies within the x seen. */
  readonly within: boolean;
}

/** An x that gives a y. */
export interface InversePrediction {
  readonly estimate: number;
  /** By Fieller's argument; not symmetric about the estimate. */
  readonly interval: Interval;
  /** Whether the estimate lies within the x seen. */
  readonly within: boolean;
}

export interface PredictionOptions {
  /** 0.95 unless told. */
  readonly level?: number;
  /** Standard uncertainty of the new y about the line; 0 unless told, which leaves that of the line alone. */
  readonly newReading?: number;
}

/** The factor by which a standard error reaches to its limit on either side. */
export function reachOf(where: string, level: number, degreesOfFreedom: number | undefined): number {
  checkLevel(where, level);
  const distribution = degreesOfFreedom === undefined ? normal() : studentT(degreesOfFreedom);
  return distribution.upperQuantile((1 - level) / 2);
}

/**
 * The y that a fitted line gives at an x, with its standard error √(V + 2(x − c)C + (x − c)²B), c the centre.
 *
 * @throws StatisticsError `not-finite`, `out-of-range`
 * @example predictedAt(deming({ x: [1, 2, 3, 4], y: [2.1, 3.9, 6.2, 7.8] }), 2.5).estimate // 5
 */
export function predictedAt(line: FittedLine, x: number, options: PredictionOptions = {}): LinePrediction {
  const where = 'predictedAt';
  checkFinite(where, 'x', x);
  const { level = 0.95, newReading = 0 } = options;
  checkNewReading(where, newReading);
  const reach = reachOf(where, level, line.degreesOfFreedom);
  const along = x - line.centre.x;
  const { varianceAtCentre, varianceOfSlope, covariance } = line.uncertainty;
  const variance = varianceAtCentre + 2 * along * covariance + along * along * varianceOfSlope;
  const standardError = Math.sqrt(Math.max(0, variance) + newReading ** 2);
  const estimate = line.centre.y + line.slope * along;
  const interval = { level, lower: estimate - reach * standardError, upper: estimate + reach * standardError };
  return { estimate, standardError, interval, within: isWithin(line, x) };
}

/**
 * The x that gives a y on a fitted line, with the interval of all x that the y does not contradict (Fieller's argument):
 * (y − line(x))² ≤ t² (u² + variance of the line at x), u the standard uncertainty of the new y.
 *
 * @throws StatisticsError `no-variation` where the slope cannot be distinguished from zero, so that no finite interval exists; `not-finite`
 * @example inverseAt(deming({ x: [1, 2, 3, 4], y: [2.1, 3.9, 6.2, 7.8] }), 5).interval // { level: 0.95, lower: 2.28, upper: 2.812 }
 * @source Fieller 1954, J. R. Stat. Soc. B 16:175-185 (from memory)
 */
export function inverseAt(line: FittedLine, y: number, options: PredictionOptions = {}): InversePrediction {
  const where = 'inverseAt';
  checkFinite(where, 'y', y);
  const { level = 0.95, newReading = 0 } = options;
  checkNewReading(where, newReading);
  const reach = reachOf(where, level, line.degreesOfFreedom);
  const { varianceAtCentre, varianceOfSlope, covariance } = line.uncertainty;
  const square = reach * reach;
  const away = y - line.centre.y;
  // a h² − 2 b h + c = 0 in h = x − centre
  const a = line.slope ** 2 - square * varianceOfSlope;
  if (!(a > 0)) {
    const detail = `needs a slope that differs from zero at the level ${level}, got ${line.slope}; widen the range of the calibration`;
    throw new StatisticsError(where, 'no-variation', detail);
  }
  const b = away * line.slope + square * covariance;
  const c = away * away - square * (newReading ** 2 + varianceAtCentre);
  const root = Math.sqrt(Math.max(0, b * b - a * c));
  const estimate = line.centre.x + away / line.slope;
  const lower = line.centre.x + (b - root) / a;
  const upper = line.centre.x + (b + root) / a;
  return { estimate, interval: { level, lower, upper }, within: isWithin(line, estimate) };
}

function isWithin({ range }: FittedLine, x: number): boolean {
  return x >= range.from && x <= range.to;
}

function checkNewReading(where: string, newReading: number): void {
  checkFinite(where, 'standard uncertainty of the new reading', newReading);
  if (newReading < 0)
    throw new StatisticsError(where, 'out-of-range', `needs a standard uncertainty of 0 or more, got ${newReading}`);
}
