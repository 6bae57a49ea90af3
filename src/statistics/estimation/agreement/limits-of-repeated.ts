import { checkSample } from '../../checked-input.js';
import { StatisticsError } from '../../statistics-error.js';
import { mean } from '../summaries/mean.js';
import { variance } from '../summaries/variance.js';
import { type AgreementOptions, type LimitsOfAgreement, limits } from './limits-of-agreement.js';
import type { WeightedSquare } from './variance-sum.js';

/** What two methods read of one thing, such as one wall. */
export interface ReadByBoth {
  readonly x: readonly number[];
  readonly y: readonly number[];
}

/**
 * `varying`: taken in pairs while the true value moved, reading k of x with reading k of y. `constant`: the true value stood
 * still, so that the readings are free repeats, in any number.
 */
export interface RepeatedReadings {
  readonly kind: 'varying' | 'constant';
  readonly things: readonly ReadByBoth[];
}

/**
 * Limits of agreement of single readings when each thing was read several times. The things, not the readings, count.
 *
 * Variance of a single difference: between the things' mean differences, plus what averaging has taken out of those. Where the
 * true value varied, (1 − 1/m) of the variance within things of the paired differences; where it was constant, (1 − 1/mx) and
 * (1 − 1/my) of the variances within things of either method. m are harmonic means of the numbers of readings. With equal
 * numbers these are the components of the analysis of variance.
 *
 * @throws StatisticsError `too-few` below three things or where nothing was read twice, `lengths-differ` for unpaired readings of
 *   varying things, `not-finite`, `no-variation`
 * @example
 * const things = [{ x: [4.1, 4.6], y: [4.0, 4.4] }, { x: [5.2, 5.0], y: [5.3, 4.7] }, { x: [6.1, 6.6], y: [5.9, 6.5] }];
 * limitsOfRepeated({ kind: 'varying', things }).bias.estimate // 0.1333
 * @source Bland & Altman 1999, sections 5.2 and 5.3; intervals after Zou 2013 (both from memory)
 */
export function limitsOfRepeated(readings: RepeatedReadings, options: AgreementOptions = {}): LimitsOfAgreement {
  const where = 'limitsOfRepeated';
  const { things } = readings;
  if (things.length < 3)
    throw new StatisticsError(where, 'too-few', `needs at least 3 things read by both methods, got ${things.length}`);
  for (const { x, y } of things) {
    checkSample(where, 'x', x, 1);
    checkSample(where, 'y', y, 1);
    if (readings.kind === 'varying' && x.length !== y.length)
      throw new StatisticsError(
        where,
        'lengths-differ',
        `needs readings in pairs, got ${x.length} of x and ${y.length} of y`,
      );
  }
  const differences = things.map(({ x, y }) => mean(x) - mean(y));
  const meanSquare = variance(differences);
  const n = things.length;
  const between = { weight: 1, meanSquare, degreesOfFreedom: n - 1 };
  return limits(
    where,
    {
      bias: mean(differences),
      ofBias: meanSquare / n,
      freedom: n - 1,
      squares: [between, ...withinParts(where, readings)],
      n,
    },
    options,
  );
}

function withinParts(where: string, { kind, things }: RepeatedReadings): readonly WeightedSquare[] {
  const groups =
    kind === 'varying'
      ? [things.map(({ x, y }) => x.map((value, index) => value - (y[index] as number)))]
      : [things.map(({ x }) => x), things.map(({ y }) => y)];
  const parts = groups.flatMap(withinPart);
  if (parts.length === 0)
    throw new StatisticsError(where, 'too-few', 'needs things read more than once; use limitsOfAgreement');
  return parts;
}

function withinPart(groups: readonly (readonly number[])[]): readonly WeightedSquare[] {
  const repeated = groups.filter((group) => group.length > 1);
  if (repeated.length === 0) return [];
  const degreesOfFreedom = repeated.reduce((sum, group) => sum + group.length - 1, 0);
  const sum = repeated.reduce((total, group) => total + variance(group) * (group.length - 1), 0);
  const weight = 1 - mean(groups.map((group) => 1 / group.length));
  return [{ weight, meanSquare: sum / degreesOfFreedom, degreesOfFreedom }];
}
