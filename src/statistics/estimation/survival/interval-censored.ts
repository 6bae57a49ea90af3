import { StatisticsError } from '../../statistics-error.js';
import { type Mixture, newtonShares, slopes } from './newton-shares.js';

/** An event that came after one time and by another, such as between two visits; without `by` it had not come yet. */
export interface IntervalTime {
  readonly after: number;
  readonly by?: number;
}

/** A stretch of time into which a share of the events falls; inside it the data do not say where. */
export interface EventMass {
  readonly after: number;
  /** Infinite for the share that had no event while it was followed. */
  readonly by: number;
  readonly share: number;
}

export interface IntervalCensored {
  /** In order of time; the shares sum to 1, but for stretches left out because less than 1e-7 falls into them. */
  readonly masses: readonly EventMass[];
  readonly n: number;
  readonly iterations: number;
}

const WHERE = 'intervalCensored';
const MOST_ROUNDS = 500;
/** A gain that is rounding alone: the shares are then the maximum already, and a step could only stir their last digits. */
const EXACT = 1e-15;

/**
 * The distribution of times to an event that are known only to lie between two visits, without assuming its shape: the
 * self-consistent estimate of maximum likelihood. Rounds of redistribution, each followed by Newton's step over all shares that
 * keeps them at 0 or more, end when no shift of any share could raise the log-likelihood by 1e-11 a time.
 *
 * @throws StatisticsError `too-few` without times; `out-of-range` where `by` is not above `after`; `not-converged`
 * @example intervalCensored([{ after: 0, by: 30 }, { after: 30, by: 60 }, { after: 60 }]).masses.map(({ share }) => share) // [1/3, 1/3, 1/3]
 * @source Turnbull 1976, J. R. Stat. Soc. B 38:290–295, for the estimate; Wang 2007, J. R. Stat. Soc. B 69:185–198, for the step
 *   (from memory)
 */
export function intervalCensored(times: readonly IntervalTime[]): IntervalCensored {
  checkTimes(times);
  const bounded = times.map(({ after, by = Number.POSITIVE_INFINITY }) => ({ after, by }));
  const pieces = innermost(bounded);
  const holds = bounded.map(({ after, by }) =>
    pieces.flatMap((piece, k) => (piece.after >= after && piece.by <= by ? [k] : [])),
  );
  const mixture: Mixture = { holds, pieces: pieces.length };
  let shares: Float64Array = Float64Array.from(pieces, () => 1 / pieces.length);
  for (let iterations = 1; iterations <= MOST_ROUNDS; iterations++) {
    const next = redistributed(mixture, shares);
    shares = next.settled ? next.shares : newtonShares(mixture, next.shares);
    if (next.gain < 1e-11) {
      const masses = pieces.map((piece, k) => ({ ...piece, share: shares[k]! })).filter(({ share }) => share > 1e-7);
      return { masses, n: times.length, iterations };
    }
  }
  throw new StatisticsError(
    WHERE,
    'not-converged',
    `needs more than ${MOST_ROUNDS} rounds; leave out times that are nearly alike`,
  );
}

/**
 * Thirty rounds of redistribution, in each of which a time is shared out among its pieces as their shares stand; fewer where
 * nothing is left to gain, as where every time has a piece of its own. With the shares times the slopes summing to the number of
 * times, the greatest slope bounds the gain in log-likelihood a time.
 */
function redistributed(mixture: Mixture, from: Float64Array) {
  const n = mixture.holds.length;
  let shares = from;
  for (let round = 0; ; round++) {
    const slope = slopes(mixture, shares);
    let gain = -1;
    for (const one of slope) gain = Math.max(gain, one / n - 1);
    // A share on its way to 0 has still to be put there.
    const settled = gain <= EXACT && shares.every((share) => share > 1e-4);
    if (round === 30 || settled) return { shares, gain, settled };
    shares = shares.map((share, k) => (share * slope[k]!) / n);
  }
}

/** The stretches between a lower limit and the next upper one: only there can an estimate place events. */
function innermost(times: readonly { readonly after: number; readonly by: number }[]) {
  const afters = [...new Set(times.map(({ after }) => after))].sort((one, other) => one - other);
  const bys = [...new Set(times.map(({ by }) => by))].sort((one, other) => one - other);
  return afters.flatMap((after, k) => {
    const by = bys.find((limit) => limit > after)!;
    const next = afters[k + 1];
    return next !== undefined && next < by ? [] : [{ after, by }];
  });
}

function checkTimes(times: readonly IntervalTime[]): void {
  if (times.length === 0) throw new StatisticsError(WHERE, 'too-few', 'needs at least one time');
  for (const { after, by = Number.POSITIVE_INFINITY } of times) {
    if (Number.isFinite(after) && by > after) continue;
    throw new StatisticsError(
      WHERE,
      'out-of-range',
      `needs intervals that end after they begin, got ${after} to ${by}`,
    );
  }
}
