import { StatisticsError } from '../../statistics-error.js';

/** How often the arm of those in one arm was guessed, by whoever was asked. */
export interface ArmGuesses {
  /** Named the arm that it was. */
  readonly correct: number;
  /** Named the other arm. */
  readonly wrong: number;
  /** Did not know. */
  readonly undecided: number;
}

/** How many were asked; refuses counts that are no whole numbers, and nobody asked. */
export function countGuesses(where: string, guesses: ArmGuesses): number {
  // Callers without types may leave an arm out.
  const { correct, wrong, undecided } = guesses ?? {};
  for (const count of [correct, wrong, undecided]) {
    if (Number.isSafeInteger(count) && count >= 0) continue;
    throw new StatisticsError(where, 'out-of-range', `needs whole numbers of guesses from 0, got ${count}`);
  }
  const n = correct + wrong + undecided;
  if (n === 0)
    throw new StatisticsError(where, 'too-few', 'needs at least one guess in each arm, got none; ask somebody');
  return n;
}

/**
 * The largest share of other answers that would still leave `n` answers all alike with a chance of half of 1 - level: the
 * exact binomial limit, for where every answer was the same and a standard error of zero would claim too much.
 */
export function shareBeyondUnanimity(n: number, level: number): number {
  return -Math.expm1(Math.log((1 - level) / 2) / n);
}
