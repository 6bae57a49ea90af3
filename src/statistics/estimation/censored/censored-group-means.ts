import { checkedResult, checkFinite } from '../../checked-input.js';
import { StatisticsError } from '../../statistics-error.js';
import { mean } from '../summaries/mean.js';
import { highestLikelihood } from './highest-likelihood.js';
import type { LeftCensored, SplitCensored } from './left-censored.js';
import { normalBelow } from './normal-below.js';

/** Means of several groups that share one spread. */
export interface CensoredGroupMeans {
  /** One for each group, in the order given. */
  readonly groups: readonly CensoredGroup[];
  /** Standard deviation within every group, by maximum likelihood: the divisor is the number of values. */
  readonly spread: number;
}

export interface CensoredGroup {
  readonly mean: number;
  /** What a value below its limit is expected to be, E(X | X < limit); one for each of them, in the order given. */
  readonly expectedBelow: readonly number[];
}

const where = 'censoredGroupMeans';

/**
 * Means of groups with values below limits, by maximum likelihood with a normal shape and one spread for all groups: the way
 * where each group has too few values to know a spread of its own. A group's mean is that of its measured values and of what
 * those below their limits are expected to be.
 *
 * @throws StatisticsError `too-few` for a group without a measured value, `no-variation` where no group has two that differ,
 *   `not-finite`, `not-converged`
 * @example
 * const measured = (value) => ({ kind: 'measured', value });
 * censoredGroupMeans([[measured(3), measured(4), { kind: 'below', limit: 2 }], [measured(6), measured(7)]]).groups[0].mean // 2.849
 * @source Tobin 1958, Econometrica 26:24-36, for the likelihood; Olsen 1978, Econometrica 46:1211-1215, for the form in which it
 *   has a single peak (both from memory)
 */
export function censoredGroupMeans(groups: readonly (readonly LeftCensored[])[]): CensoredGroupMeans {
  const own = groups.map(split);
  const centres = own.map(({ measured }) => mean(measured));
  const scale = Math.sqrt(withinSquares(own) / own.reduce((sum, { measured }) => sum + measured.length, 0));
  if (!(scale > 0))
    throw new StatisticsError(where, 'no-variation', 'needs measured values that differ within a group, got none');
  // Each group about its own measured mean, so that groups that lie far apart cost no digits.
  const data = own.map(({ measured, limits }, index) => {
    const inside = (value: number) => (value - (centres[index] as number)) / scale;
    return { measured: measured.map(inside), limits: limits.map(inside) };
  });
  const { levels, precision } = highestLikelihood(where, data);
  const spread = scale / precision;
  return checkedResult(where, {
    groups: own.map(({ limits }, index) => {
      const location = (centres[index] as number) + spread * (levels[index] as number);
      return {
        mean: location,
        expectedBelow: limits.map((limit) => location - spread * normalBelow((limit - location) / spread).hazard),
      };
    }),
    spread,
  });
}

function split(values: readonly LeftCensored[], index: number): SplitCensored {
  const measured = values.flatMap((one) => (one.kind === 'measured' ? [one.value] : []));
  const limits = values.flatMap((one) => (one.kind === 'below' ? [one.limit] : []));
  for (const value of [...measured, ...limits]) checkFinite(where, 'value or limit', value);
  if (measured.length === 0)
    throw new StatisticsError(
      where,
      'too-few',
      `needs a measured value in every group, got none in group ${index + 1}`,
    );
  return { measured, limits };
}

function withinSquares(groups: readonly SplitCensored[]): number {
  return groups.reduce((sum, { measured }) => {
    const level = mean(measured);
    return measured.reduce((inner, value) => inner + (value - level) ** 2, sum);
  }, 0);
}
