import type { FittedLine, LineWithout } from '../../statistics/index.js';
import type { ReadingScale } from '../../trial/index.js';
import { MoistureError } from '../moisture-error.js';
import type { CalibrationPair } from './calibration-pairs.js';
import { pairsOnScale } from './reading-scale.js';
import { type UnseenWalls, unseenWalls } from './unseen-walls.js';

/** Whether more water shows as a higher reading, or as a lower one, as with a resistance in ohms. */
export type ReadingRises = 'with-moisture' | 'against-moisture';

/** A line of reading on moisture, with the lines without each wall. */
export interface CalibrationLine extends FittedLine {
  /** Standard deviation of readings about the line. */
  readonly scatter: number;
  readonly leftOut: readonly LineWithout[];
}

/** What a meter's index means in moisture, for one material, whatever line it rests on. */
export interface CalibrationOfLine<Line extends CalibrationLine> {
  readonly material: string;
  /** Of the readings in the line: as they stand, or their base-10 logarithms. */
  readonly scale: ReadingScale;
  /** Reading on that scale = intercept + slope × moisture; its uncertainty comes from leaving out a wall at a time. */
  readonly line: Line;
  /** As the meter showed them. */
  readonly pairs: readonly CalibrationPair[];
  readonly walls: number;
  /** Moisture of the driest and of the wettest core: outside it the calibration is a guess. */
  readonly range: { readonly from: number; readonly to: number };
  /** How wrong moisture from the meter is on walls that the line has not seen. */
  readonly onUnseenWalls: UnseenWalls;
}

export interface ReadingsOfMeter {
  readonly readingRises: ReadingRises;
  readonly scale: ReadingScale;
}

/** The calibration that a line makes, unless it runs the wrong way. */
export function calibrationOfLine<Line extends CalibrationLine>(
  where: string,
  pairs: readonly CalibrationPair[],
  line: Line,
  { readingRises, scale }: ReadingsOfMeter,
): CalibrationOfLine<Line> {
  if (line.slope > 0 !== (readingRises === 'with-moisture')) {
    const wanted = readingRises === 'with-moisture' ? 'rises' : 'falls';
    const detail = `needs a reading that ${wanted} with moisture, got a slope of ${line.slope}; check the columns, or state readingRises where the meter runs the other way`;
    throw new MoistureError(where, 'reversed', detail);
  }
  const without = new Map(line.leftOut.map((each) => [each.group, each]));
  const predicted = pairsOnScale(pairs, scale).map(({ wall, reading }) => {
    const { slope, intercept } = without.get(wall) ?? line;
    return (reading - intercept) / slope;
  });
  return {
    material: pairs[0]?.material ?? '',
    scale,
    line,
    pairs,
    walls: line.leftOut.length,
    range: line.range,
    onUnseenWalls: unseenWalls(pairs, predicted),
  };
}
