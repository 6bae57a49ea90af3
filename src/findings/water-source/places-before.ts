import type { Side } from '../../analysis/index.js';
import {
  type HeightPattern,
  heightPatternOfWalls,
  isMoistureError,
  type MoistureReading,
  type WallProfile,
} from '../../moisture/index.js';
import { groupBy, valuesBy } from '../../plain/group-by.js';
import { present } from '../../plain/present.js';
import { unlessRefused } from '../../plain/unless-refused.js';
import { isStatisticsError, mean, paired } from '../../statistics/index.js';
import { daySorter, type Trial } from '../../trial/index.js';

/** Percentage points that would matter between two heights where no margin is stated. Our own rule. */
const usualRelevant_pp = 1;

/** With fewer walls their spread says nothing of a difference inside walls. Our own rule. */
const wallsForDepths = 3;

export interface HeightsBefore extends Pick<HeightPattern, 'shape' | 'because'> {
  readonly heights: readonly { readonly height_mm: number; readonly walls: number; readonly mean: number }[];
}

/** Shallowest less deepest place at the same heights, a mean over walls with Student’s interval, in the unit of the outcome. */
export interface DepthsBefore {
  readonly shallow_mm: number;
  readonly deep_mm: number;
  readonly walls: number;
  readonly difference: number;
  readonly lower: number;
  readonly upper: number;
}

interface Placed {
  readonly wall: string;
  readonly height_mm?: number;
  readonly depth_mm?: number;
  readonly value: number;
}

/** Readings of compared walls before the treatment, at stations with a place. */
export function placedBefore(
  trial: Trial,
  used: readonly MoistureReading[],
  sides: ReadonlyMap<string, Side>,
): readonly Placed[] {
  const sorted = daySorter(trial);
  const stations = new Map(trial.stations.map((one) => [JSON.stringify([one.wall, one.station]), one]));
  return used.flatMap(({ wall, station, day, value }): Placed[] => {
    if (!sides.has(wall) || sorted(wall, day) !== 'before' || value.kind !== 'measured') return [];
    const { height_mm, depth_mm } = stations.get(JSON.stringify([wall, station])) ?? {};
    return [
      {
        ...{ wall, value: value.value },
        ...present({ height_mm, depth_mm }),
      },
    ];
  });
}

/** Undefined with fewer than three heights, or with two that fewer than two walls share. */
export function heightsBefore(placed: readonly Placed[], margin = usualRelevant_pp): HeightsBefore | undefined {
  const profiles = [...groupBy(placed, ({ wall }) => wall).values()].map((own): WallProfile => {
    const byHeight = valuesBy(
      own,
      ({ height_mm }) => height_mm,
      ({ value }) => value,
    );
    return distinct([...byHeight.keys()]).map((height_mm) => ({
      height_mm,
      value_pct: mean(byHeight.get(height_mm) ?? []),
    }));
  });
  const heights = distinct(profiles.flatMap((profile) => profile.map(({ height_mm }) => height_mm)));
  return unlessRefused(
    (error) => isMoistureError(error) || isStatisticsError(error),
    () => {
      const { shape, because } = heightPatternOfWalls(profiles, { relevantDifference_pp: margin });
      return {
        ...(because === undefined ? { shape } : { shape, because }),
        heights: heights.map((height_mm) => {
          const values = profiles.flatMap((profile) =>
            profile.flatMap((one) => (one.height_mm === height_mm ? [one.value_pct] : [])),
          );
          return { height_mm, walls: values.length, mean: mean(values) };
        }),
      };
    },
  );
}

/** Undefined with one depth, or with fewer than three walls that have both at one height. */
export function depthsBefore(placed: readonly Placed[], level: number): DepthsBefore | undefined {
  const depths = distinct(placed.flatMap(({ depth_mm }) => depth_mm ?? []));
  const [shallow_mm, deep_mm] = [depths[0], depths.at(-1)];
  if (shallow_mm === undefined || deep_mm === undefined || shallow_mm === deep_mm) return undefined;
  const pairs = [...groupBy(placed, ({ wall }) => wall).values()].flatMap((own) => {
    const both = [...groupBy(own, ({ height_mm }) => height_mm ?? 'not recorded').values()]
      .map((places) => [valuesAt(places, shallow_mm), valuesAt(places, deep_mm)] as const)
      .filter((values) => values.every(({ length }) => length > 0));
    return both.length === 0
      ? []
      : [{ shallow: mean(both.map(([values]) => mean(values))), deep: mean(both.map(([, values]) => mean(values))) }];
  });
  if (pairs.length < wallsForDepths) return undefined;
  return unlessRefused(isStatisticsError, () => {
    const { estimate: difference, interval } = paired(
      pairs.map(({ shallow, deep }) => shallow - deep),
      { level },
    );
    return { shallow_mm, deep_mm, walls: pairs.length, difference, lower: interval.lower, upper: interval.upper };
  });
}

function valuesAt(places: readonly Placed[], depth: number): readonly number[] {
  return places.flatMap(({ depth_mm, value }) => (depth_mm === depth ? [value] : []));
}

function distinct(values: readonly number[]): readonly number[] {
  return [...new Set(values)].sort((one, other) => one - other);
}
