import type { Side } from '../../analysis/index.js';
import { heightPatternOfWalls, isMoistureError, worstClass, worstIon } from '../../moisture/index.js';
import { orInstead } from '../../plain/unless-refused.js';
import { isStatisticsError, mean } from '../../statistics/index.js';
import { saltIons, type Trial } from '../../trial/index.js';
import { rangeOf } from '../salts/content-range.js';
import { placedSamples } from '../salts/placed-samples.js';

export interface SaltsBeforeTreatment {
  readonly walls: number;
  /** Walls whose worst ion is medium or high, and low, by the scheme named. */
  readonly raised: number;
  readonly low: number;
  /** Whether the salts of the three ions together are highest part way up, values below detection counted as none. */
  readonly isBand: boolean;
}

/** A difference between heights that would matter, % by mass: about where schemes begin. Our own rule. */
const relevant_pct = 0.1;

/** What the salts say of where water evaporated; undefined where none were analysed before the treatment. */
export function saltsOverHeight(trial: Trial, sides: ReadonlyMap<string, Side>): SaltsBeforeTreatment | undefined {
  const samples = placedSamples(trial, sides).flatMap(({ sample, window }) => (window === 'before' ? [sample] : []));
  const walls = [...new Set(samples.map(({ wall }) => wall))];
  if (walls.length === 0) return undefined;
  const classes = walls.map((wall) =>
    worstClass(
      samples.flatMap(({ wall: own, scheme, contents_pct }) =>
        own !== wall || scheme === undefined ? [] : (worstIon(scheme, contents_pct)?.class ?? []),
      ),
    ),
  );
  const profiles = walls.map((wall) => {
    const own = samples.filter((one) => one.wall === wall);
    const heights = [...new Set(own.flatMap(({ height_mm }) => height_mm ?? []))];
    return heights.map((height_mm) => ({
      height_mm,
      value_pct: mean(own.filter((one) => one.height_mm === height_mm).map(({ contents_pct }) => sumOf(contents_pct))),
    }));
  });
  return {
    walls: walls.length,
    raised: classes.filter((one) => one === 'medium' || one === 'high').length,
    low: classes.filter((one) => one === 'low').length,
    isBand: isPeaked(profiles),
  };
}

function sumOf(contents: Parameters<typeof worstIon>[1]): number {
  return saltIons.reduce((sum, ion) => sum + (rangeOf(contents[ion])?.lower_pct ?? 0), 0);
}

function isPeaked(profiles: Parameters<typeof heightPatternOfWalls>[0]): boolean {
  return orInstead(
    (error) => isMoistureError(error) || isStatisticsError(error),
    () => heightPatternOfWalls(profiles, { relevantDifference_pp: relevant_pct }).shape === 'peaked',
    () => false,
  );
}
