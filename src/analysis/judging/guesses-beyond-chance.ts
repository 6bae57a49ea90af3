import { isoDay } from '../../plain/days.js';
import { groupBy } from '../../plain/group-by.js';
import { type ScoredUnits, scoresOfTreated } from '../../statistics/index.js';
import type { Belief, Role, Trial } from '../../trial/index.js';
import { comparisonSides } from '../comparison-sides.js';
import type { Side } from '../wall-change.js';
import { sidesOfWalls } from './sides-of-walls.js';

/** Guesses of the compared walls' sides, and how well they can be made by chance. */
export interface Guesses {
  readonly right: number;
  readonly wrong: number;
  readonly undecided: number;
  /** Of so many people. */
  readonly people: number;
  /**
   * One-sided: chance of as many right guesses or more if the walls of the comparison had been allocated anew, inside their blocks,
   * and everybody had guessed the same. Somebody who guesses "treated" everywhere gains nothing. 1 where nobody guessed.
   */
  readonly pValue: number;
  /** The smallest p-value that these guesses could reach: near 1 where hardly anybody guessed. */
  readonly smallestP: number;
}

export interface GuessesOfRole {
  readonly role: Role;
  /** Each person's last note on each wall that is dated no later than the reading it speaks of. */
  readonly inTime: Guesses;
  /** Last notes dated after it: what was believed then may come from what was seen. */
  readonly late: Guesses;
}

/**
 * Whether people told treated from untreated walls more often than chance, role by role. A note is late when it is dated after its
 * `readingDate`, or without one after the last reading of its wall.
 *
 * @example guessesBeyondChance(trial).map(({ role, late }) => [role, late.right]) // [['reader', 6], ['occupant', 11]]
 */
export function guessesBeyondChance(trial: Trial): readonly GuessesOfRole[] {
  const roles: readonly Role[] = ['reader', 'occupant', 'analyst'];
  const lastReading = lastReadings(trial);
  const sides = sidesOfWalls(trial);
  const isLate = ({ date, wall, readingDate }: Belief) => isoDay(date) > (readingDate ?? lastReading.get(wall) ?? '');
  return roles.flatMap((role): GuessesOfRole[] => {
    const own = trial.beliefs.filter((belief) => belief.role === role && sides.has(belief.wall));
    if (own.length === 0) return [];
    const inTime = lastNotes(own.filter((belief) => !isLate(belief)));
    const late = lastNotes(own.filter(isLate));
    return [{ role, inTime: guessesOf(trial, inTime, sides), late: guessesOf(trial, late, sides) }];
  });
}

function lastNotes(beliefs: readonly Belief[]): readonly Belief[] {
  const last = new Map<string, Belief>();
  for (const belief of beliefs) {
    const key = JSON.stringify([belief.person, belief.wall]);
    const earlier = last.get(key);
    if (earlier === undefined || earlier.date <= belief.date) last.set(key, belief);
  }
  return [...last.values()];
}

function guessesOf(trial: Trial, beliefs: readonly Belief[], sides: ReadonlyMap<string, Side>): Guesses {
  const sideOfArm = comparisonSides(trial.protocol);
  const counts = { right: 0, wrong: 0, undecided: 0 };
  // "Treated" less "untreated" over everybody who spoke of the wall: right guesses are a constant more than half of it.
  const scores = new Map<string, number>();
  for (const { wall, believedArm } of beliefs) {
    const guess = sideOfArm.get(believedArm);
    counts[guess === undefined ? 'undecided' : guess === sides.get(wall) ? 'right' : 'wrong'] += 1;
    const step = guess === undefined ? 0 : guess === 'treated' ? 1 : -1;
    scores.set(wall, (scores.get(wall) ?? 0) + step);
  }
  const people = new Set(beliefs.map(({ person }) => person)).size;
  if (counts.right + counts.wrong === 0) return { ...counts, people, pValue: 1, smallestP: 1 };
  const { pValue, smallestP } = scoresOfTreated(blocksOf(trial, scores, sides));
  return { ...counts, people, pValue, smallestP };
}

function blocksOf(
  trial: Trial,
  scores: ReadonlyMap<string, number>,
  sides: ReadonlyMap<string, Side>,
): readonly ScoredUnits[] {
  const scored = trial.walls.flatMap(({ wall, block = '' }) => {
    const [score, side] = [scores.get(wall), sides.get(wall)];
    return score === undefined || side === undefined ? [] : [{ block, side, score }];
  });
  const scoresOn = (side: Side, own: typeof scored) => own.flatMap((one) => (one.side === side ? [one.score] : []));
  return [...groupBy(scored, ({ block }) => block).values()].map((own) => ({
    treated: scoresOn('treated', own),
    untreated: scoresOn('untreated', own),
  }));
}

function lastReadings({ readings, cores }: Trial): ReadonlyMap<string, string> {
  const last = new Map<string, string>();
  for (const { wall, date } of [...readings, ...cores])
    if (isoDay(date) > (last.get(wall) ?? '')) last.set(wall, isoDay(date));
  return last;
}
