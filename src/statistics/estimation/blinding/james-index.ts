import { checkLevel } from '../../checked-input.js';
import { normal } from '../../distributions/normal.js';
import type { Interval } from '../../interval.js';
import { StatisticsError } from '../../statistics-error.js';
import type { LevelOption } from '../comparison/mean-comparison.js';
import { type ArmGuesses, countGuesses, shareBeyondUnanimity } from './arm-guesses.js';

/** How far an arm stayed hidden over both arms: 1 nobody knew, 0.5 as expected by chance, 0 all guessed right. */
export interface JamesIndex {
  readonly kind: 'james-index';
  readonly estimate: number;
  readonly standardError: number;
  readonly interval: Interval;
  readonly n: number;
}

/** Shares of all that were asked, by what they were and what was guessed. */
interface Shares {
  readonly treatedRight: number;
  readonly treatedWrong: number;
  readonly untreatedRight: number;
  readonly untreatedWrong: number;
}

/**
 * James's blinding index over two arms: [1 + D + (1 - D) K] / 2 with D the share that does not know and
 * K = (P - E) / E, where P is half the share of wrong guesses among the guesses and E what P would be if guess and arm were
 * independent. Not knowing counts as hidden (weight 1), a wrong guess as half hidden (0.5), a right one as not at all.
 *
 * The standard error is the delta method's over one multinomial sample of all answers. Read it beside `bangIndex` by arm:
 * where many do not know, a high value can hide one arm that was seen through.
 *
 * @throws StatisticsError `too-few`, `out-of-range`, `no-variation` where the guesses of one arm alone, or guesses of one
 *   arm by everybody, leave nothing to expect by chance
 * @example jamesIndex({ treated: { correct: 8, wrong: 2, undecided: 2 }, untreated: { correct: 5, wrong: 5, undecided: 2 } }).estimate // 0.45833
 * @source James, Bloch, Lee, Kraemer and Fuller 1996, Stat. Med. 15:1421-1434 (from memory)
 */
export function jamesIndex(
  arms: { readonly treated: ArmGuesses; readonly untreated: ArmGuesses },
  options: LevelOption = {},
): JamesIndex {
  const { level = 0.95 } = options;
  checkLevel('jamesIndex', level);
  const { treated, untreated } = arms;
  const n = countGuesses('jamesIndex', treated) + countGuesses('jamesIndex', untreated);
  if (treated.undecided + untreated.undecided === n) return unanimous(1, n, level);
  const shares = {
    treatedRight: treated.correct / n,
    treatedWrong: treated.wrong / n,
    untreatedRight: untreated.correct / n,
    untreatedWrong: untreated.wrong / n,
  };
  const { estimate, slopes } = indexWithSlopes(shares);
  const drift = sumOf(shares, slopes, (slope) => slope);
  const variance = Math.max(0, sumOf(shares, slopes, (slope) => slope ** 2) - drift ** 2) / n;
  if (variance === 0) return unanimous(estimate, n, level);
  const standardError = Math.sqrt(variance);
  const reach = normal().upperQuantile((1 - level) / 2) * standardError;
  const interval = { level, lower: Math.max(0, estimate - reach), upper: Math.min(1, estimate + reach) };
  return { kind: 'james-index', estimate, standardError, interval, n };
}

/** Written out, the index is 1 - s + s^2 w / (2 Q): s guessed, w guessed wrong, Q what chance would make wrong, times s^2. */
function indexWithSlopes(shares: Shares): { readonly estimate: number; readonly slopes: Shares } {
  const { treatedRight, treatedWrong, untreatedRight, untreatedWrong } = shares;
  const treated = treatedRight + treatedWrong;
  const untreated = untreatedRight + untreatedWrong;
  const guessedTreated = treatedRight + untreatedWrong;
  const guessedUntreated = untreatedRight + treatedWrong;
  const guessed = treated + untreated;
  const wrong = treatedWrong + untreatedWrong;
  const chance = treated * guessedUntreated + untreated * guessedTreated;
  if (chance === 0) {
    const what = 'needs guesses in both arms, or of both arms, got guesses that chance could not make wrong';
    throw new StatisticsError('jamesIndex', 'no-variation', `${what}; read the arms one by one instead`);
  }
  const slope = (isWrong: 0 | 1, chanceSlope: number) =>
    -1 +
    (2 * guessed * wrong + guessed ** 2 * isWrong) / (2 * chance) -
    (guessed ** 2 * wrong * chanceSlope) / (2 * chance ** 2);
  return {
    estimate: 1 - guessed + (guessed ** 2 * wrong) / (2 * chance),
    slopes: {
      treatedRight: slope(0, guessedUntreated + untreated),
      treatedWrong: slope(1, guessedUntreated + treated),
      untreatedRight: slope(0, treated + guessedTreated),
      untreatedWrong: slope(1, guessedTreated + untreated),
    },
  };
}

function sumOf(shares: Shares, slopes: Shares, of: (slope: number) => number): number {
  const keys = Object.keys(shares) as (keyof Shares)[];
  return keys.reduce((sum, key) => sum + shares[key] * of(slopes[key]), 0);
}

function unanimous(estimate: number, n: number, level: number): JamesIndex {
  const away = shareBeyondUnanimity(n, level);
  const interval = { level, lower: Math.max(0, estimate - away), upper: Math.min(1, estimate + away) };
  return { kind: 'james-index', estimate, standardError: 0, interval, n };
}
