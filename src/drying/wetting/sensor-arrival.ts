import { type ChangeInMean, changeInMean, isStatisticsError } from '../../statistics/index.js';
import { DryingError } from '../drying-error.js';

/** The readings of one embedded sensor. */
export interface SensorSeries {
  readonly sensor: string;
  readonly height_mm: number;
  /** In increasing order, in whatever unit of time. */
  readonly times: readonly number[];
  readonly values: readonly number[];
}

export type SensorArrival =
  | { readonly kind: 'arrived'; readonly sensor: string; readonly height_mm: number; readonly step: ChangeInMean }
  | { readonly kind: 'not-arrived'; readonly sensor: string; readonly height_mm: number; readonly reason: NotArrived };

/** Why no arrival is read off a sensor. */
export type NotArrived = 'sensor-dries' | 'sensor-read-too-rarely' | 'sensor-stuck' | 'sensor-without-step';

/** A step smaller than this many standard errors would be found in many a series of noise, for its place is searched. */
const plainStep = 5;

/**
 * When the water came to each sensor: the step up in its readings with its interval, or why none is plain. Sensors are
 * given back from the lowest up.
 *
 * @throws DryingError `out-of-order` for times out of order, `lengths-differ`, `not-finite`
 * @example
 * const times = [0, 1, 2, 3, 4, 5, 6, 7, 8, 9];
 * const values = [3.1, 3.0, 3.2, 3.1, 3.0, 8.9, 9.1, 9.0, 9.2, 9.1];
 * sensorArrivals([{ sensor: 'P01', height_mm: 100, times, values }])[0].step.time // 4.5
 */
export function sensorArrivals(
  series: readonly SensorSeries[],
  options: { readonly level?: number } = {},
): readonly SensorArrival[] {
  return series
    .toSorted((one, other) => one.height_mm - other.height_mm)
    .map(({ sensor, height_mm, times, values }) => {
      const not = (reason: NotArrived): SensorArrival => ({ kind: 'not-arrived', sensor, height_mm, reason });
      try {
        const step = changeInMean(times, values, options);
        if (step.statistic <= -plainStep) return not('sensor-dries');
        if (step.statistic < plainStep) return not('sensor-without-step');
        return { kind: 'arrived', sensor, height_mm, step };
      } catch (error) {
        if (!isStatisticsError(error)) throw error;
        switch (error.fault) {
          case 'too-few':
            return not('sensor-read-too-rarely');
          case 'no-variation':
            return not('sensor-stuck');
          case 'lengths-differ':
          case 'not-finite':
            throw new DryingError(
              'sensorArrivals',
              error.fault,
              `needs whole series; sensor "${sensor}" ${error.message}`,
            );
          default:
            throw new DryingError(
              'sensorArrivals',
              'out-of-order',
              `needs times in order; sensor "${sensor}" ${error.message}`,
            );
        }
      }
    });
}
