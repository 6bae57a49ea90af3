import { isoDay } from '../../plain/days.js';
import { present } from '../../plain/present.js';
import { unlessRefused } from '../../plain/unless-refused.js';
import {
  type ArmGuesses,
  type BangIndex,
  bangIndex,
  binomial,
  isStatisticsError,
  type JamesIndex,
  jamesIndex,
} from '../../statistics/index.js';
import type { Belief, Role, Trial } from '../../trial/index.js';
import { comparisonSides } from '../comparison-sides.js';
import type { Side } from '../wall-change.js';

export interface PersonBeliefs extends ArmGuesses {
  readonly person: string;
  /** Days of the first and the last note that count. */
  readonly from: string;
  readonly to: string;
}

export interface RoleBlinding {
  readonly role: Role;
  readonly people: number;
  readonly byPerson: readonly PersonBeliefs[];
  readonly guesses: Readonly<Record<Side, ArmGuesses>>;
  /** By side; absent where nobody was asked of a wall of that side. */
  readonly bang: Readonly<Partial<Record<Side, BangIndex>>>;
  readonly james?: JamesIndex;
  /** Binomial test against 50 %: chance of as many correct guesses, or more, among those that guessed; 1 where nobody did. */
  readonly pValue: number;
  /** Notes dated after the last reading of their wall: what was believed then may come from what was seen. */
  readonly late: number;
}

/**
 * Who guessed what, role by role: the last note of each person on each wall, held against the side of the comparison on which
 * the wall stands. Right guesses can come from a treatment that visibly works as well as from a broken blind.
 *
 * @example blindingByRole(trial).map(({ role }) => role) // ['reader', 'occupant']
 */
export function blindingByRole(trial: Trial): readonly RoleBlinding[] {
  const roles: readonly Role[] = ['reader', 'occupant', 'analyst'];
  const lastReading = lastReadings(trial);
  return roles.flatMap((role) => {
    const beliefs = lastBeliefs(trial.beliefs.filter((belief) => belief.role === role));
    const found = beliefs.length === 0 ? undefined : blindingOf(trial, role, beliefs, lastReading);
    return found ?? [];
  });
}

function lastBeliefs(beliefs: readonly Belief[]): readonly Belief[] {
  const last = new Map<string, Belief>();
  for (const belief of beliefs) {
    const key = JSON.stringify([belief.person, belief.wall]);
    const earlier = last.get(key);
    if (earlier === undefined || earlier.date <= belief.date) last.set(key, belief);
  }
  return [...last.values()];
}

function blindingOf(
  trial: Trial,
  role: Role,
  beliefs: readonly Belief[],
  lastReading: ReadonlyMap<string, string>,
): RoleBlinding | undefined {
  const sides = comparisonSides(trial.protocol);
  const sideOfWall = new Map(trial.walls.map(({ wall, arm }) => [wall, sides.get(arm)]));
  const compared = beliefs.flatMap((belief): Compared[] => {
    const side = sideOfWall.get(belief.wall);
    if (side === undefined) return [];
    const guessed = sides.get(belief.believedArm);
    return [{ ...belief, side, guess: guessed === undefined ? 'undecided' : guessed === side ? 'correct' : 'wrong' }];
  });
  if (compared.length === 0) return undefined;
  const counts = {
    treated: countedGuesses(compared.filter(({ side }) => side === 'treated')),
    untreated: countedGuesses(compared.filter(({ side }) => side === 'untreated')),
  };
  const level = trial.protocol.confidence;
  const asked = (side: Side) => counts[side].correct + counts[side].wrong + counts[side].undecided > 0;
  const right = counts.treated.correct + counts.untreated.correct;
  const guessed = right + counts.treated.wrong + counts.untreated.wrong;
  const james = jamesOrNone(counts, level);
  return {
    role,
    people: new Set(compared.map(({ person }) => person)).size,
    byPerson: peopleIn(compared),
    guesses: counts,
    bang: {
      ...(asked('treated') ? { treated: bangIndex(counts.treated, { level }) } : {}),
      ...(asked('untreated') ? { untreated: bangIndex(counts.untreated, { level }) } : {}),
    },
    ...present({ james }),
    pValue: right === 0 ? 1 : binomial(guessed, 0.5).upperTail(right - 1),
    late: compared.filter(({ wall, date }) => isoDay(date) > (lastReading.get(wall) ?? '')).length,
  };
}

interface Compared extends Belief {
  readonly side: Side;
  readonly guess: keyof ArmGuesses;
}

function countedGuesses(beliefs: readonly Compared[]): ArmGuesses {
  const count = (guess: keyof ArmGuesses) => beliefs.filter((one) => one.guess === guess).length;
  return { correct: count('correct'), wrong: count('wrong'), undecided: count('undecided') };
}

function peopleIn(beliefs: readonly Compared[]): readonly PersonBeliefs[] {
  return [...new Set(beliefs.map(({ person }) => person))].sort().map((person) => {
    const own = beliefs.filter((one) => one.person === person);
    const days = own.map(({ date }) => isoDay(date)).sort();
    return { person, ...countedGuesses(own), from: days[0] ?? '', to: days.at(-1) ?? '' };
  });
}

function jamesOrNone(arms: Readonly<Record<Side, ArmGuesses>>, level: number): JamesIndex | undefined {
  return unlessRefused(isStatisticsError, () => jamesIndex(arms, { level }));
}

function lastReadings({ readings, cores }: Trial): ReadonlyMap<string, string> {
  const last = new Map<string, string>();
  for (const { wall, date } of [...readings, ...cores]) if (date > (last.get(wall) ?? '')) last.set(wall, isoDay(date));
  return last;
}
