import type { Interval } from '../../interval.js';
import { mean } from '../summaries/mean.js';
import { type FittedLine, reachOf } from './fitted-line.js';

/** A line without one group: its slope, and its height above the centre of all pairs. */
interface LineAtCentre {
  readonly slope: number;
  readonly level: number;
}

type OfLine = Pick<
  FittedLine & { readonly degreesOfFreedom: number },
  'uncertainty' | 'degreesOfFreedom' | 'slopeInterval' | 'interceptInterval'
>;

/**
 * Uncertainty of a line from the lines without each group in turn (the jackknife), with groups − 2 degrees of freedom.
 *
 * @param line all pairs' slope and intercept, and the abscissa of the centre
 */
export function uncertaintyOfLeftOut(
  where: string,
  line: { readonly slope: number; readonly intercept: number; readonly centreX: number },
  lines: readonly LineAtCentre[],
  level: number,
): OfLine {
  const slope = mean(lines.map((one) => one.slope));
  const height = mean(lines.map((one) => one.level));
  const factor = (lines.length - 1) / lines.length;
  let [varianceOfSlope, varianceAtCentre, covariance] = [0, 0, 0];
  for (const one of lines) {
    varianceOfSlope += factor * (one.slope - slope) ** 2;
    varianceAtCentre += factor * (one.level - height) ** 2;
    covariance += factor * (one.slope - slope) * (one.level - height);
  }
  const degreesOfFreedom = lines.length - 2;
  const reach = reachOf(where, level, degreesOfFreedom);
  const around = (value: number, variance: number): Interval => {
    const half = reach * Math.sqrt(Math.max(0, variance));
    return { level, lower: value - half, upper: value + half };
  };
  const { centreX } = line;
  const ofIntercept = varianceAtCentre - 2 * centreX * covariance + centreX ** 2 * varianceOfSlope;
  return {
    uncertainty: { varianceAtCentre, varianceOfSlope, covariance },
    degreesOfFreedom,
    slopeInterval: around(line.slope, varianceOfSlope),
    interceptInterval: around(line.intercept, ofIntercept),
  };
}
