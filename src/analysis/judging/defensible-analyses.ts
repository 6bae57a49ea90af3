import type { MoistureReading } from '../../moisture/index.js';
import { hodgesLehmann, hodgesLehmannPaired } from '../../statistics/index.js';
import type { Trial } from '../../trial/index.js';
import type { Answer } from '../answer.js';
import { type ComparisonDesign, comparisonDesign } from '../comparison-design.js';
import { estimatedUnlessRefused } from '../not-estimated.js';
import type { StationChange } from '../wall-change.js';
import { changesOn, differencesInPairs, wallCount } from '../wall-groups.js';
import { answerFromDesign, answerFromReadings } from './answer-from-readings.js';
import { withOtherWindows } from './other-windows.js';
import { withoutStations } from './without-stations.js';

/**
 * The primary question answered by every other choice that somebody could have defended beforehand: windows narrowed, halved or
 * moved, heights, depths and single stations left out, blocks ignored, ranks instead of means, blind readings alone. All are on
 * the outcome's scale.
 *
 * @param outcomeReadings of the outcome's instrument
 * @example defensibleAnalyses(trial, outcomeReadings, { design, stations: changes.stations }).length // 15
 */
export function defensibleAnalyses(
  trial: Trial,
  outcomeReadings: readonly MoistureReading[],
  { design, stations }: { readonly design: ComparisonDesign; readonly stations: readonly StationChange[] },
): readonly Answer[] {
  return [
    ...withOtherWindows(trial, outcomeReadings),
    ...withoutStations(trial, stations),
    ...withoutBlocks(trial, design),
    byRanks(trial, design),
    ...blindOnly(trial, outcomeReadings),
  ];
}

function withoutBlocks(trial: Trial, design: ComparisonDesign): readonly Answer[] {
  if (design.kind === 'complete') return [];
  const { design: plain } = comparisonDesign(design.walls.map((wall) => ({ ...wall, block: '' })));
  return [answerFromDesign(trial, plain, { id: 'without-blocks' })];
}

function byRanks({ protocol }: Trial, design: ComparisonDesign): Answer {
  const id = 'ranks';
  const level = protocol.confidence;
  return estimatedUnlessRefused({ id }, () => {
    const result =
      design.kind === 'pairs'
        ? hodgesLehmannPaired(differencesInPairs(design.pairs), { level })
        : hodgesLehmann(changesOn(design.walls, 'treated'), changesOn(design.walls, 'untreated'), { level });
    const estimate = {
      ...{ id, unit: protocol.outcome.unit, estimate: result.estimate },
      ...(result.interval && { interval: result.interval }),
      method: { kind: 'rank-shift' as const },
      walls: wallCount(design.walls),
    };
    return { kind: 'estimated', estimate };
  });
}

function blindOnly(trial: Trial, readings: readonly MoistureReading[]): readonly Answer[] {
  const blind = readings.filter(({ knewArm }) => knewArm === 'no');
  if (blind.length === 0 || blind.length === readings.length) return [];
  return [answerFromReadings(trial, blind, { id: 'blind-only' })];
}
