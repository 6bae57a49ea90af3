import type { MoistureReading } from '../../moisture/index.js';
import { groupBy, valuesBy } from '../../plain/group-by.js';
import { mean } from '../../statistics/index.js';
import { daySorter, type KnewArm, type Trial } from '../../trial/index.js';
import { measuredValue } from '../../trial/measured-value.js';
import type { Answer } from '../answer.js';
import { compareWalls, type WallValue } from '../compare-walls.js';
import type { ComparisonDesign } from '../comparison-design.js';
import { namesOfWalls } from '../walls-as-one.js';
import { answerFromReadings } from './answer-from-readings.js';

export interface ReadingsByKnowledge {
  /** After readings by what their reader knew; `unrecorded` where the column is empty. */
  readonly counts: Readonly<Record<KnewArm | 'unrecorded', number>>;
  /** The difference with the after readings of one kind alone, all before readings kept. */
  readonly answers: readonly { readonly knew: KnewArm; readonly answer: Answer }[];
  /** How differently knowing and blind readers read the treated walls against the untreated, at the same stations. */
  readonly contrast: Answer;
  /**
   * By how much the primary difference moves for each unit by which every after reading of a treated wall by somebody who knew
   * is off. Absent where there is none.
   */
  readonly movesBy?: number;
}

const kinds: readonly KnewArm[] = ['no', 'unsure', 'yes'];

/**
 * The effect by readings taken blind, unsure and knowing. What somebody knew matters after the treatment; before it there is
 * nothing to know.
 *
 * @param design the primary comparison, from the same readings
 * @example readingsByKnowledge(trial, outcomeReadings, { design, primary }).counts.yes // 0
 */
export function readingsByKnowledge(
  trial: Trial,
  outcomeReadings: readonly MoistureReading[],
  { design, primary }: { readonly design: ComparisonDesign; readonly primary: Answer },
): ReadingsByKnowledge {
  const sorted = daySorter(trial);
  const isAfter = ({ wall, day }: MoistureReading) => sorted(wall, day) === 'after';
  const after = outcomeReadings.filter(isAfter);
  const before = outcomeReadings.filter((reading) => !isAfter(reading));
  const counts = { no: 0, unsure: 0, yes: 0, unrecorded: 0 };
  for (const { knewArm } of after) counts[knewArm ?? 'unrecorded'] += 1;
  const answers = kinds
    .filter((knew) => counts[knew] > 0)
    .map((knew) => ({
      knew,
      answer: answerFromReadings(trial, [...before, ...after.filter(({ knewArm }) => knewArm === knew)], {
        id: `knew-${knew}`,
      }),
    }));
  const following = counts.yes > 0 ? followingOf(trial, outcomeReadings, isAfter, { design, primary }) : {};
  return { counts, answers, contrast: contrastOf(trial, after, design), ...following };
}

function contrastOf(trial: Trial, after: readonly MoistureReading[], design: ComparisonDesign): Answer {
  const both = [...groupBy(after, ({ wall, station }) => JSON.stringify([wall, station])).values()].flatMap((own) => {
    const byKnowledge = valuesBy(own, ({ knewArm }) => knewArm, measuredValue);
    const [knowing, blind] = [byKnowledge.get('yes'), byKnowledge.get('no')];
    return knowing === undefined || blind === undefined ? [] : [{ wall: own[0].wall, knowing, blind }];
  });
  const values = design.walls.flatMap((wall): WallValue[] => {
    const names = new Set(namesOfWalls(wall));
    const own = both.filter((entry) => names.has(entry.wall));
    if (own.length === 0) return [];
    return [{ ...wall, value: mean(own.map(({ knowing, blind }) => mean(knowing) - mean(blind))) }];
  });
  return compareWalls(values, {
    id: 'knowing-less-blind',
    unit: trial.protocol.outcome.unit,
    level: trial.protocol.confidence,
    scale: 'difference',
  });
}

/** The primary difference moves in a straight line with a bias of the knowing readings, so that one step tells its slope. */
function followingOf(
  trial: Trial,
  readings: readonly MoistureReading[],
  isAfter: (reading: MoistureReading) => boolean,
  { design, primary }: { readonly design: ComparisonDesign; readonly primary: Answer },
): { readonly movesBy?: number } {
  const treated = new Set(design.walls.flatMap((one) => (one.side === 'treated' ? namesOfWalls(one) : [])));
  const shifted = readings.map((reading) => {
    const { value, knewArm, wall } = reading;
    if (value.kind !== 'measured' || knewArm !== 'yes' || !isAfter(reading) || !treated.has(wall)) return reading;
    return { ...reading, value: { kind: 'measured' as const, value: value.value + 1 } };
  });
  const moved = answerFromReadings(trial, shifted, { id: '' });
  if (moved.kind !== 'estimated' || primary.kind !== 'estimated') return {};
  const slope = moved.estimate.estimate - primary.estimate.estimate;
  return slope > 1e-9 ? { movesBy: slope } : {};
}
