import type { MoistureReading } from '../../moisture/index.js';
import type { Trial } from '../../trial/index.js';
import type { Answer } from '../answer.js';
import type { ComparisonDesign } from '../comparison-design.js';
import type { Named } from '../estimate.js';
import { refused } from '../not-estimated.js';
import { primaryDifference } from '../primary-difference.js';
import { stationChanges } from '../station-changes.js';
import { designOfStations } from '../units-of-comparison.js';

/**
 * The primary analysis once more, from whatever readings it is given and by the windows and the outcome of the trial that it
 * is given: the one road by which every question of the judging is answered.
 *
 * @example
 * const blind = readings.filter(({ knewArm }) => knewArm === 'no');
 * answerFromReadings(trial, blind, { id: 'blind-only' }).kind // 'estimated'
 */
export function answerFromReadings(trial: Trial, readings: readonly MoistureReading[], named: Named): Answer {
  return answerFromDesign(trial, designFromReadings(trial, readings), named);
}

/**
 * The walls' changes by the same road.
 *
 * @example designFromReadings(trial, outcomeReadings).walls.length // 24
 */
export function designFromReadings(trial: Trial, readings: readonly MoistureReading[]): ComparisonDesign {
  return designOfStations(trial, stationChanges(trial, readings).stations).design;
}

export function answerFromDesign({ protocol }: Trial, design: ComparisonDesign, named: Named): Answer {
  const primary = primaryDifference(design, { level: protocol.confidence, unit: protocol.outcome.unit });
  return primary.kind === 'estimated'
    ? { kind: 'estimated', estimate: { ...primary.estimate, ...named } }
    : refused(named, primary.reason);
}
