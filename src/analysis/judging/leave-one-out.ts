import type { MoistureReading } from '../../moisture/index.js';
import type { Trial } from '../../trial/index.js';
import type { Answer } from '../answer.js';
import { type ComparisonDesign, comparisonDesign } from '../comparison-design.js';
import type { UnitKind } from '../wall-change.js';
import { answerFromDesign, answerFromReadings } from './answer-from-readings.js';

export interface LeftOneOut {
  readonly of: UnitKind | 'reader';
  readonly left: string;
  readonly answer: Answer;
}

/**
 * The primary answer without each wall (in blocks, without each block) and without each reader: whether one of them carries it.
 *
 * @example leaveOneOut(trial, outcomeReadings, design).filter(({ of }) => of === 'block').length // 12
 */
export function leaveOneOut(
  trial: Trial,
  outcomeReadings: readonly MoistureReading[],
  design: ComparisonDesign,
): readonly LeftOneOut[] {
  return [...withoutUnits(trial, design), ...withoutReaders(trial, outcomeReadings)];
}

function withoutUnits(trial: Trial, design: ComparisonDesign): readonly LeftOneOut[] {
  const isBlocked = design.kind !== 'complete';
  const unitOf = (wall: ComparisonDesign['walls'][number]) => (isBlocked ? wall.block : wall.wall);
  return [...new Set(design.walls.map(unitOf))].map((left) => {
    const rest = comparisonDesign(design.walls.filter((wall) => unitOf(wall) !== left)).design;
    const of = isBlocked ? 'block' : (design.walls[0]?.unit?.kind ?? 'wall');
    return {
      of,
      left,
      answer: answerFromDesign(trial, rest, { id: `without-${of}`, about: { kind: 'without', of, left } }),
    };
  });
}

function withoutReaders(trial: Trial, readings: readonly MoistureReading[]): readonly LeftOneOut[] {
  const readers = [...new Set(readings.flatMap(({ reader }) => reader ?? []))].sort();
  if (readers.length < 2 || readers.length > 12) return [];
  return readers.map((left) => {
    const kept = readings.filter(({ reader }) => reader !== left);
    const named = { id: 'without-reader', about: { kind: 'without', of: 'reader', left } } as const;
    return { of: 'reader', left, answer: answerFromReadings(trial, kept, named) };
  });
}
