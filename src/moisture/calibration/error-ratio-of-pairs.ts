import { dayNumber } from '../../plain/days.js';
import { orInstead } from '../../plain/unless-refused.js';
import { errorRatio, extremes, isStatisticsError } from '../../statistics/index.js';
import type { CalibrationPair } from './calibration-pairs.js';
import { fewestRepeats } from './scatter-of-repeats.js';

/** How far apart two visits may lie to count as repeats of each other: our convention. */
export const repeatsWithinDays = 100;

/** Variance of the meter's errors over that of the cores', and where the figure comes from. */
export interface RatioOfErrors {
  readonly errorRatio: number;
  /** `assumed` takes all scatter about the line as the meter's. */
  readonly from: 'stated' | 'repeats' | 'assumed';
}

/**
 * The ratio from pairs repeated at the same station within a season: the variances of meter and of cores within these. Both also
 * hold the wall's real movement between the visits. Without enough repeats the cores are taken as far better than the meter.
 */
export function errorRatioOfPairs(pairs: readonly CalibrationPair[], stated: number | undefined): RatioOfErrors {
  if (stated !== undefined) return { errorRatio: stated, from: 'stated' };
  const groups = repeatedPairs(pairs);
  const repeats = groups.reduce((sum, group) => sum + group.length - 1, 0);
  const assumed = { errorRatio: 100 * squareOfSlope(pairs), from: 'assumed' } as const;
  if (repeats < fewestRepeats) return assumed;
  return orInstead(
    isStatisticsError,
    () => {
      const moisture = groups.map((group) => group.map((pair) => pair.moisture));
      const reading = groups.map((group) => group.map((pair) => pair.reading));
      return { errorRatio: errorRatio(moisture, reading), from: 'repeats' };
    },
    () => assumed,
  );
}

function repeatedPairs(pairs: readonly CalibrationPair[]): readonly (readonly CalibrationPair[])[] {
  const groups: CalibrationPair[][] = [];
  const open = new Map<string, CalibrationPair[]>();
  for (const pair of [...pairs].sort((a, b) => (a.day < b.day ? -1 : a.day > b.day ? 1 : 0))) {
    const place = JSON.stringify([pair.wall, pair.station]);
    const group = open.get(place);
    const first = group?.[0];
    if (group !== undefined && first !== undefined && dayNumber(pair.day) - dayNumber(first.day) <= repeatsWithinDays) {
      group.push(pair);
      continue;
    }
    const fresh = [pair];
    open.set(place, fresh);
    groups.push(fresh);
  }
  return groups.filter((group) => group.length > 1);
}

/** Square of the ratio of the ranges: the scale on which errors of the meter compare with those of the cores. */
function squareOfSlope(pairs: readonly CalibrationPair[]): number {
  const range = (values: readonly number[]) => {
    const { least, greatest } = extremes(values);
    return greatest - least;
  };
  return (range(pairs.map(({ reading }) => reading)) / range(pairs.map(({ moisture }) => moisture))) ** 2;
}
