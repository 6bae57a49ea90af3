import { mixedModel, primaryDifference } from '../../analysis/index.js';
import { streamsOf } from '../../statistics/resampling/random/random-stream.js';
import type { UncertainComparison } from '../walls-needed/planned-chances.js';
import { plannedReadings } from './planned-readings.js';
import { plannedWalls } from './planned-walls.js';

/** Limits of a trial's two intervals, one after the other: of the primary analysis and of the mixed model. NaN where there is none. */
export const limitsOfTrial = 4;

/** Trials to simulate, in memory that the threads share. */
export interface IntervalsJob {
  readonly planned: UncertainComparison;
  readonly seed: number;
  /** The number of the trial that nobody has taken. */
  readonly next: Int32Array;
  /** Of all trials, `limitsOfTrial` each. */
  readonly limits: Float64Array;
}

/**
 * Takes trials one by one until none is left, simulates each under no effect and judges it as an opinion does. A trial has a stream of its
 * own, by the seed and its number, and a place of its own: who simulates it makes no difference.
 */
export function fillIntervals({ planned, seed, next, limits }: IntervalsJob): void {
  const walls = plannedWalls(planned.design, planned.sampling.stations);
  const streamOf = streamsOf(seed);
  const options = { level: planned.level, unit: '' };
  const trials = limits.length / limitsOfTrial;
  for (let trial = Atomics.add(next, 0, 1); trial < trials; trial = Atomics.add(next, 0, 1)) {
    const stations = plannedReadings(planned, walls, streamOf(trial));
    const design = walls.designOf(stations);
    for (const [at, answer] of [primaryDifference(design, options), mixedModel(design, stations, options)].entries()) {
      const interval = answer.kind === 'estimated' ? answer.estimate.interval : undefined;
      limits[trial * limitsOfTrial + 2 * at] = interval?.lower ?? Number.NaN;
      limits[trial * limitsOfTrial + 2 * at + 1] = interval?.upper ?? Number.NaN;
    }
  }
}
