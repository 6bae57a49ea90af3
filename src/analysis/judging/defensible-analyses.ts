import type { MoistureReading } from '../../moisture/index.js';
import { hodgesLehmann, hodgesLehmannPaired } from '../../statistics/index.js';
import type { Trial, Window, Windows } from '../../trial/index.js';
import type { Answer } from '../answer.js';
import { type ComparisonDesign, comparisonDesign } from '../comparison-design.js';
import { notEstimated } from '../not-estimated.js';
import { changesOn, differencesInPairs, wallCount } from '../wall-groups.js';
import { answerFromDesign, answerFromReadings } from './answer-from-readings.js';
import { addDays, daysBetween } from './days.js';

/**
 * The primary question answered by every other choice that somebody could have defended beforehand: windows narrowed or
 * halved, heights left out, blocks ignored, ranks instead of means, blind readings alone. All are on the outcome's scale.
 *
 * @param outcomeReadings of the outcome's instrument
 * @example defensibleAnalyses(trial, readings, design).map((answer) => answer.kind)
 */
export function defensibleAnalyses(
  trial: Trial,
  outcomeReadings: readonly MoistureReading[],
  design: ComparisonDesign,
): readonly Answer[] {
  return [
    ...withOtherWindows(trial, outcomeReadings),
    ...withoutHeights(trial, outcomeReadings),
    ...withoutBlocks(trial, design),
    byRanks(trial, design),
    ...blindOnly(trial, outcomeReadings),
  ];
}

function withOtherWindows(trial: Trial, readings: readonly MoistureReading[]): readonly Answer[] {
  const { windows } = trial.protocol;
  if (windows === undefined) return [];
  const choices: readonly [id: string, label: string, change: (window: Window) => Window][] = [
    ['windows-narrowed', 'Windows a quarter shorter at both ends', (window) => part(window, 0.25, 0.75)],
    ['windows-first-half', 'First half of both windows', (window) => part(window, 0, 0.5)],
    ['windows-second-half', 'Second half of both windows', (window) => part(window, 0.5, 1)],
  ];
  return choices.map(([id, label, change]) => {
    const changed: Windows = { before: change(windows.before), after: change(windows.after) };
    return answerFromReadings({ ...trial, protocol: { ...trial.protocol, windows: changed } }, readings, { id, label });
  });
}

function part({ from, to }: Window, start: number, end: number): Window {
  const days = daysBetween(from, to);
  return { from: addDays(from, Math.round(days * start)), to: addDays(from, Math.round(days * end)) };
}

/** Each height left out in turn, where there are several and few enough to name. */
function withoutHeights(trial: Trial, readings: readonly MoistureReading[]): readonly Answer[] {
  const heights = [...new Set(trial.stations.flatMap(({ height_mm }) => height_mm ?? []))].sort((a, b) => a - b);
  if (heights.length < 2 || heights.length > 6) return [];
  const heightOf = new Map(trial.stations.map((one) => [JSON.stringify([one.wall, one.station]), one.height_mm]));
  return heights.map((height) => {
    const kept = readings.filter(({ wall, station }) => heightOf.get(JSON.stringify([wall, station])) !== height);
    return answerFromReadings(trial, kept, {
      id: `without-height-${height}`,
      label: `Without the stations at ${height} mm`,
    });
  });
}

function withoutBlocks(trial: Trial, design: ComparisonDesign): readonly Answer[] {
  if (design.kind === 'complete') return [];
  const { design: plain } = comparisonDesign(design.walls.map((wall) => ({ ...wall, block: '' })));
  return [answerFromDesign(trial, plain, { id: 'without-blocks', label: 'Blocks ignored' })];
}

function byRanks({ protocol }: Trial, design: ComparisonDesign): Answer {
  const [id, label] = ['ranks', 'By ranks instead of means'];
  const level = protocol.confidence;
  try {
    const result =
      design.kind === 'pairs'
        ? hodgesLehmannPaired(differencesInPairs(design.pairs), { level })
        : hodgesLehmann(changesOn(design.walls, 'treated'), changesOn(design.walls, 'untreated'), { level });
    const estimate = {
      ...{ id, label, unit: protocol.outcome.unit, estimate: result.estimate },
      ...(result.interval && { interval: result.interval }),
      quantity: 'typical shift of treated walls’ change against untreated walls’',
      method: 'Hodges and Lehmann’s median of differences, with the limits of the rank test',
      assumptions: ['the treatment shifts every wall alike'],
      walls: wallCount(design.walls),
    };
    return { kind: 'estimated', estimate };
  } catch (error) {
    return notEstimated(id, label, error);
  }
}

function blindOnly(trial: Trial, readings: readonly MoistureReading[]): readonly Answer[] {
  const blind = readings.filter(({ knewArm }) => knewArm === 'no');
  if (blind.length === 0 || blind.length === readings.length) return [];
  return [answerFromReadings(trial, blind, { id: 'blind-only', label: 'Readings taken blind alone' })];
}
