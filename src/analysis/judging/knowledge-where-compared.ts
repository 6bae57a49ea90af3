import type { MoistureReading } from '../../moisture/index.js';
import { type KnewArm, type Trial, windowSorter } from '../../trial/index.js';
import type { Side } from '../wall-change.js';
import { sidesOfWalls } from './sides-of-walls.js';

type KnowledgeCounts = Readonly<Record<KnewArm | 'unrecorded' | 'all', number>>;

export interface KnowledgeWhereCompared {
  /** After readings in the comparison, by what their reader knew of the wall's arm: the one denominator. */
  readonly after: KnowledgeCounts;
  readonly bySide: Readonly<Record<Side, KnowledgeCounts>>;
  /** Who took them, in order of name. */
  readonly readers: readonly ReaderKnowledge[];
  /** After readings that name no reader. */
  readonly readerNotRecorded: number;
}

export interface ReaderKnowledge extends KnowledgeCounts {
  readonly reader: string;
}

/**
 * What the readers knew where it matters: in the after readings that enter the comparison. Before the treatment there is nothing to
 * know, and a wall that is left out cannot move the answer.
 *
 * @param used the readings of the comparison, of both windows
 * @example knowledgeWhereCompared(trial, changes.used).after // { no: 431, unsure: 0, yes: 0, unrecorded: 0, all: 431 }
 */
export function knowledgeWhereCompared(trial: Trial, used: readonly MoistureReading[]): KnowledgeWhereCompared {
  const windowOf = windowSorter(trial);
  const sides = sidesOfWalls(trial);
  const after = used.filter(({ wall, day }) => sides.has(wall) && windowOf(wall, day) === 'after');
  const on = (side: Side) => counted(after.filter(({ wall }) => sides.get(wall) === side));
  const readers = [...new Set(after.flatMap(({ reader }) => reader ?? []))].sort();
  return {
    after: counted(after),
    bySide: { treated: on('treated'), untreated: on('untreated') },
    readers: readers.map((reader) => ({ reader, ...counted(after.filter((one) => one.reader === reader)) })),
    readerNotRecorded: after.filter(({ reader }) => reader === undefined).length,
  };
}

function counted(readings: readonly MoistureReading[]): KnowledgeCounts {
  const counts = { no: 0, unsure: 0, yes: 0, unrecorded: 0, all: readings.length };
  for (const { knewArm } of readings) counts[knewArm ?? 'unrecorded'] += 1;
  return counts;
}
