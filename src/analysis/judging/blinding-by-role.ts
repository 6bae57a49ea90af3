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

export interface RoleBlinding {
  readonly role: Role;
  readonly people: number;
  readonly guesses: Readonly<Record<Side, ArmGuesses>>;
  /** By side; absent where nobody was asked of a wall of that side. */
  readonly bang: Readonly<Partial<Record<Side, BangIndex>>>;
  readonly james?: JamesIndex;
  /** Chance of as many right guesses, or more, by a coin, among those that guessed; 1 where nobody did. */
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
  const armOf = new Map(trial.walls.map(({ wall, arm }) => [wall, arm]));
  const counts: Record<Side, { correct: number; wrong: number; undecided: number }> = {
    treated: { correct: 0, wrong: 0, undecided: 0 },
    untreated: { correct: 0, wrong: 0, undecided: 0 },
  };
  const compared = beliefs.filter(({ wall }) => sides.has(armOf.get(wall) ?? ''));
  if (compared.length === 0) return undefined;
  for (const { wall, believedArm } of compared) {
    const side = sides.get(armOf.get(wall) ?? '') ?? 'untreated';
    const guessed = sides.get(believedArm);
    counts[side][guessed === undefined ? 'undecided' : guessed === side ? 'correct' : 'wrong'] += 1;
  }
  const level = trial.protocol.confidence;
  const asked = (side: Side) => counts[side].correct + counts[side].wrong + counts[side].undecided > 0;
  const right = counts.treated.correct + counts.untreated.correct;
  const guessed = right + counts.treated.wrong + counts.untreated.wrong;
  const james = jamesOrNone(counts, level);
  return {
    role,
    people: new Set(compared.map(({ person }) => person)).size,
    guesses: counts,
    bang: {
      ...(asked('treated') ? { treated: bangIndex(counts.treated, { level }) } : {}),
      ...(asked('untreated') ? { untreated: bangIndex(counts.untreated, { level }) } : {}),
    },
    ...(james === undefined ? {} : { james }),
    pValue: right === 0 ? 1 : binomial(guessed, 0.5).upperTail(right - 1),
    late: compared.filter(({ wall, date }) => date.slice(0, 10) > (lastReading.get(wall) ?? '')).length,
  };
}

function jamesOrNone(arms: Readonly<Record<Side, ArmGuesses>>, level: number): JamesIndex | undefined {
  try {
    return jamesIndex(arms, { level });
  } catch (error) {
    if (!isStatisticsError(error)) throw error;
    return undefined;
  }
}

function lastReadings({ readings, cores }: Trial): ReadonlyMap<string, string> {
  const last = new Map<string, string>();
  for (const { wall, date } of [...readings, ...cores])
    if (date > (last.get(wall) ?? '')) last.set(wall, date.slice(0, 10));
  return last;
}
