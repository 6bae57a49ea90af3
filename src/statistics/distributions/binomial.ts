import { checkProbability } from '../checked-input.js';
import { betaTails } from '../numerics/special-functions/beta-tails.js';
import { deviance } from '../numerics/special-functions/deviance.js';
import { minusProduct } from '../numerics/special-functions/minus-product.js';
import { stirlingExcess } from '../numerics/special-functions/stirling-excess.js';
import { StatisticsError } from '../statistics-error.js';
import { checkPoint } from './check-point.js';
import type { Distribution } from './distribution.js';
import { standardNormalUpperQuantile } from './standard-normal.js';

/**
 * Binomial distribution of the number of successes in n independent trials, each with the given probability.
 *
 * `density(k)` is the probability of exactly k (0 between whole numbers), `lowerTail(k)` of at most k,
 * `upperTail(k)` of more than k. `quantile(p)` is the smallest k whose lower tail is at least p; `upperQuantile(q)` the
 * smallest k whose upper tail is at most q.
 *
 * @throws StatisticsError when n is not a whole number of 1 or more, or the probability not between 0 and 1
 * @example binomial(10, 0.5).upperTail(7) // 0.05468750000000001
 */
export function binomial(trials: number, probability: number): Distribution {
  if (!Number.isSafeInteger(trials) || trials < 1) {
    throw new StatisticsError('binomial', 'out-of-range', `needs a whole number of trials above 0, got ${trials}`);
  }
  checkProbability('binomial', probability);
  if (probability === 0) return certainCount(0);
  if (probability === 1) return certainCount(trials);

  const failure = 1 - probability;
  const mean = trials * probability;
  const above = (k: number): number => {
    if (k < 0) return 1;
    if (k >= trials) return 0;
    const excess = minusProduct(k + 1, trials + 1, probability);
    return betaTails(k + 1, trials - k).below(probability, failure, excess);
  };
  const below = (k: number): number => {
    if (k < 0) return 0;
    if (k >= trials) return 1;
    const excess = minusProduct(k + 1, trials + 1, probability);
    return betaTails(k + 1, trials - k).above(probability, failure, excess);
  };
  /** Smallest whole number at which a condition that stays true once true holds, sought outward from a guess. */
  const smallestWhere = (holds: (k: number) => boolean, guess: number): number => {
    let step = 1;
    let high = Math.min(Math.max(Math.round(guess), 0), trials);
    while (high < trials && !holds(high)) high = Math.min(trials, high + step++ * step);
    step = 1;
    let low = high - 1;
    while (low >= 0 && holds(low)) low -= step++ * step;
    low = Math.max(low, -1);
    while (high - low > 1) {
      const middle = Math.floor((low + high) / 2);
      if (holds(middle)) high = middle;
      else low = middle;
    }
    return high;
  };
  const guessAt = (z: number): number => mean + z * Math.sqrt(mean * failure);
  const whole = (x: number): number => {
    checkPoint('binomial', x);
    return Math.floor(x);
  };
  return {
    density: (x) => {
      const isCount = whole(x) === x && x >= 0 && x <= trials;
      return isCount ? probabilityOf(x, trials, probability, failure) : 0;
    },
    lowerTail: (x) => below(whole(x)),
    upperTail: (x) => above(whole(x)),
    quantile: (p) => {
      checkProbability('binomial', p);
      if (p === 0) return 0;
      if (p === 1) return trials;
      return smallestWhere((k) => below(k) >= p, guessAt(-standardNormalUpperQuantile(p)));
    },
    upperQuantile: (q) => {
      checkProbability('binomial', q);
      if (q === 0) return trials;
      if (q === 1) return 0;
      return smallestWhere((k) => above(k) <= q, guessAt(standardNormalUpperQuantile(q)));
    },
  };
}

/** Probability of exactly k successes by Loader's deviances, which keep all digits for millions of trials. */
function probabilityOf(k: number, trials: number, probability: number, failure: number): number {
  if (k === 0) return Math.exp(trials * Math.log1p(-probability));
  if (k === trials) return Math.exp(trials * Math.log(probability));
  const rest = trials - k;
  const difference = minusProduct(k, trials, probability);
  const exponent = deviance(k, trials * probability, difference) + deviance(rest, trials * failure, -difference);
  const stirling = stirlingExcess(trials) - stirlingExcess(k) - stirlingExcess(rest);
  return Math.sqrt(trials / (2 * Math.PI * k) / rest) * Math.exp(stirling - exponent);
}

/** All probability on one count, when success is impossible or certain. */
function certainCount(count: number): Distribution {
  const check = (where: (x: number) => number) => (x: number) => {
    checkPoint('binomial', x);
    return where(x);
  };
  const constant = (p: number): number => {
    checkProbability('binomial', p);
    return count;
  };
  return {
    density: check((x) => (x === count ? 1 : 0)),
    lowerTail: check((x) => (x >= count ? 1 : 0)),
    upperTail: check((x) => (x >= count ? 0 : 1)),
    quantile: constant,
    upperQuantile: constant,
  };
}
