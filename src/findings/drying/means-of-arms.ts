import { groupBy } from '../../plain/group-by.js';
import { orInstead } from '../../plain/unless-refused.js';
import { isStatisticsError, mean, standardDeviation, studentT } from '../../statistics/index.js';
import type { MeansOfArm, WallCurve } from './drying-part.js';

/**
 * The mean over the walls of each arm at every visit on which at least half of them were read, treated arms first.
 * Limits are Student's, of the mean.
 *
 * @param level of the limits, such as 0.95
 */
export function meansOfArms(curves: readonly WallCurve[], level: number): readonly MeansOfArm[] {
  const treatedFirst = [
    ...curves.filter(({ side }) => side === 'treated'),
    ...curves.filter(({ side }) => side === 'untreated'),
  ];
  return [...groupBy(treatedFirst, ({ arm }) => arm)].map(([arm, own]) => ({ arm, visits: visitsOf(own, level) }));
}

function visitsOf(own: readonly WallCurve[], level: number): MeansOfArm['visits'] {
  const read = own.flatMap(({ days, moisture }) => moisture.map((value, at) => ({ day: days[at] ?? '', value })));
  return [...groupBy(read, ({ day }) => day)]
    .filter(([, values]) => 2 * values.length >= own.length)
    .sort(([one], [other]) => (one < other ? -1 : 1))
    .map(([day, each]) => {
      const values = each.map(({ value }) => value);
      return { day, mean: mean(values), ...limitsOf(values, level) };
    });
}

function limitsOf(values: readonly number[], level: number): { readonly lower?: number; readonly upper?: number } {
  if (values.length < 2) return {};
  return orInstead(
    isStatisticsError,
    () => {
      const reach = studentT(values.length - 1).upperQuantile((1 - level) / 2);
      const half = (reach * standardDeviation(values)) / Math.sqrt(values.length);
      return { lower: mean(values) - half, upper: mean(values) + half };
    },
    () => ({}),
  );
}
