import { addDays } from '../../src/plain/days.js';
import type { SensorRecord, Station, Trial } from '../../src/trial/index.js';
import { madeTrial, soundProtocol } from './made-trial.js';

/** Forty days of embedded sensors, two on a treated wall and two on an untreated one. */

const origin = { file: 'stations.csv', row: 2 };
export const sensors = ['T1', 'T2', 'U1', 'U2'];
const daysOfLog = 40;

export function recordOf(sensor: string, isLost: (day: number) => boolean, perDay?: number): SensorRecord {
  const nothing = { count: 0, readings: 0, longest_s: 0, missing: 0 };
  return {
    sensor,
    readings: 24 * daysOfLog,
    interval_s: 3600,
    days: Array.from({ length: daysOfLog }, (_, day) => ({
      day: addDays('2024-03-01', day),
      mean: 20 + day / 10,
      readings: 24,
      coverage: isLost(day) ? 0.5 : 1,
      row: 2 + day,
    })),
    gaps: nothing,
    stuck: nothing,
    spikes: { count: 0 },
    steps: { count: 0 },
    ...(perDay === undefined ? {} : { drift: { perDay, standardError: 0.001, drifts: perDay !== 0 } }),
    clockChanges: [],
  };
}

export const whole = (sensor: string) => recordOf(sensor, () => false);
/** Without so many days from the eleventh on. */
export const holed = (sensor: string, lost: number) => recordOf(sensor, (day) => day >= 10 && day < 10 + lost);

/** All inside the before window of `soundProtocol`. */
export function logged(records: readonly SensorRecord[], changes: Partial<Trial> = {}): Trial {
  const protocol = {
    ...soundProtocol,
    outcome: { instrument: 'plug', quantity: 'moisture', unit: '% by volume', better: 'lower' as const },
    instruments: [{ instrument: 'plug', kind: 'embedded-sensor' as const }],
  };
  const stations = sensors.map(
    (sensor, k): Station => ({
      station: `at ${sensor}`,
      wall: sensor.slice(0, 1),
      height_mm: 300 * (1 + (k % 2)),
      sensor,
      origin,
    }),
  );
  const sensorLog = {
    file: 'sensors.csv',
    rows: 24 * daysOfLog * records.length,
    leftOut: { missing: 0, belowDetection: 0, repeated: 0, contradicting: 0 },
    clock: 'with-zone',
    order: 'in-order',
    sensors: records,
  } as const;
  const walls = [
    { wall: 'T', arm: 'treated' },
    { wall: 'U', arm: 'sham' },
  ];
  return madeTrial(walls, { protocol, stations, sensorLog, ...changes });
}
