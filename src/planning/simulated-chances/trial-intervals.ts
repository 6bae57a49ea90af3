import { mixedModel, primaryDifference } from '../../analysis/index.js';
import { streamsOf } from '../../statistics/resampling/random/random-stream.js';
import type { UncertainComparison } from '../walls-needed/planned-chances.js';
import { plannedReadings } from './planned-readings.js';
import { plannedWalls } from './planned-walls.js';

/** Limits of a trial's two intervals, one after the other: of the primary analysis and of the mixed model. NaN where there is none. */
export const limitsOfTrial = 4;

/** Every `step`-th trial from the `first` on. */
export interface TrialShare {
  readonly seed: number;
  readonly first: number;
  readonly step: number;
}

/**
 * Simulates its share of the trials under no effect and judges each as an opinion does. A trial has a stream of its own, by the seed and its
 * number, and a place of its own: who simulates it makes no difference.
 *
 * @param limits of all trials, `limitsOfTrial` each
 */
export function fillIntervals(planned: UncertainComparison, { seed, first, step }: TrialShare, limits: Float64Array) {
  const walls = plannedWalls(planned.design, planned.sampling.stations);
  const streamOf = streamsOf(seed);
  const options = { level: planned.level, unit: '' };
  for (let trial = first; trial < limits.length / limitsOfTrial; trial += step) {
    const stations = plannedReadings(planned, walls, streamOf(trial));
    const design = walls.designOf(stations);
    for (const [at, answer] of [primaryDifference(design, options), mixedModel(design, stations, options)].entries()) {
      const interval = answer.kind === 'estimated' ? answer.estimate.interval : undefined;
      limits[trial * limitsOfTrial + 2 * at] = interval?.lower ?? Number.NaN;
      limits[trial * limitsOfTrial + 2 * at + 1] = interval?.upper ?? Number.NaN;
    }
  }
}
