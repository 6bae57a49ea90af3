import { checkLevel } from '../../checked-input.js';
import { normal } from '../../distributions/normal.js';
import type { Interval } from '../../interval.js';
import type { LevelOption } from '../comparison/mean-comparison.js';
import { type ArmGuesses, countGuesses, shareBeyondUnanimity } from './arm-guesses.js';

/** How far guesses in one arm went beyond chance: 1 all right, 0 as expected by chance or nobody daring to guess, -1 all wrong. */
export interface BangIndex {
  readonly kind: 'bang-index';
  readonly estimate: number;
  readonly standardError: number;
  readonly interval: Interval;
  readonly n: number;
}

/**
 * Bang's blinding index of one arm: (right - wrong) / n, those who do not know counted in n, with variance
 * (p + q - (p - q)^2) / n for shares p right and q wrong. One for each arm, because wishful guessing shows as a positive
 * index in one arm and a negative one in the other, which an index over both would hide.
 *
 * Limits are normal and end at -1 and 1; where all answers are alike, they are exact binomial ones.
 *
 * @param options `level`: two-sided, 0.95 unless told; 0.9 gives the one-sided 95 % limits that some papers print
 * @throws StatisticsError `too-few`, `out-of-range`
 * @example bangIndex({ correct: 8, wrong: 2, undecided: 2 }).estimate // 0.5
 * @source Bang, Ni and Davis 2004, Control. Clin. Trials 25:143-156 (scale seen in the abstract, variance from memory)
 */
export function bangIndex(guesses: ArmGuesses, options: LevelOption = {}): BangIndex {
  const { level = 0.95 } = options;
  checkLevel('bangIndex', level);
  const n = countGuesses('bangIndex', guesses);
  const [right, wrong] = [guesses.correct / n, guesses.wrong / n];
  const estimate = (guesses.correct - guesses.wrong) / n;
  const standardError = Math.sqrt(Math.max(0, right + wrong - estimate ** 2) / n);
  return { kind: 'bang-index', estimate, standardError, interval: limits({ estimate, standardError, n }, level), n };
}

function limits({ estimate, standardError, n }: Omit<BangIndex, 'kind' | 'interval'>, level: number): Interval {
  if (standardError > 0) {
    const reach = normal().upperQuantile((1 - level) / 2) * standardError;
    return { level, lower: Math.max(-1, estimate - reach), upper: Math.min(1, estimate + reach) };
  }
  // Each other answer takes one off where nobody knew, and two where all were right or all wrong.
  const away = shareBeyondUnanimity(n, level) * (estimate === 0 ? 1 : 2);
  return { level, lower: Math.max(-1, estimate - away), upper: Math.min(1, estimate + away) };
}
