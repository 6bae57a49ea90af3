import { leastCoverage, type SensorLog } from '../../trial/index.js';

/** The log's story for `opinion.json`, without its daily means: these are readings. */
export function sensorLogJson({ file, rows, leftOut, clock, order, sensors }: SensorLog) {
  return {
    file,
    rows,
    leftOut: { ...leftOut },
    clock,
    order,
    sensors: sensors.map(({ sensor, readings, interval_s, days, gaps, stuck, spikes, steps, drift, clockChanges }) => ({
      sensor,
      readings,
      interval_s,
      days: days.length,
      daysUsed: days.filter(({ coverage }) => coverage >= leastCoverage).length,
      gaps: { ...gaps },
      stuck: { ...stuck },
      spikes: { ...spikes },
      steps: { ...steps },
      drift: drift === undefined ? null : { ...drift },
      clockChanges: [...clockChanges],
    })),
  };
}
