import { addDays } from '../../src/plain/days.js';
import { normalDraws, randomStream } from '../../src/statistics/index.js';
import type { Reading, Station, Trial } from '../../src/trial/index.js';
import { madeTrial, soundProtocol } from './made-trial.js';

/** Two walls read many times: a series of visits. */

export const windowsOfTwo = {
  before: { from: '2023-01-01', to: '2023-12-31' },
  after: { from: '2024-06-01', to: '2025-05-31' },
};
const origin = { file: 'readings.csv', row: 2 };

/** A day and how far the treated wall stands above 8, the untreated one standing at 8. */
export type Visit = readonly [day: string, above: number];

/** Visits every three weeks in either window; `of` is told the window and how many days have passed in it. */
export function visitsOf(count: number, of: (isAfter: boolean, days: number, at: number) => number): Visit[] {
  return [windowsOfTwo.before.from, windowsOfTwo.after.from].flatMap((first, window) =>
    Array.from({ length: count }, (_, k): Visit => {
      return [addDays(first, 21 * k), of(window === 1, 21 * k, window * count + k)];
    }),
  );
}

export const noise = normalDraws(randomStream(20240611), 200);

export function stepped(step: number, count = 16, scatter = 0.2): Visit[] {
  return visitsOf(count, (isAfter, _days, at) => (isAfter ? step : 0) + scatter * (noise[at] ?? 0));
}

const stationsOfTwo = ['T', 'U'].flatMap((wall) =>
  [200, 900].map((height_mm): Station => ({ station: `${wall}-${height_mm}`, wall, height_mm, depth_mm: 50, origin })),
);
const offsets: Readonly<Record<string, number>> = { 'T-200': 1, 'T-900': -1, 'U-200': 1.5, 'U-900': -1.5 };

/** Both walls read at two heights at each visit, unless a reading is left out. */
export function trialOfTwo(
  visits: readonly Visit[],
  changes: Partial<Trial> = {},
  isLost = (_: Reading) => false,
): Trial {
  const readings = visits.flatMap(([date, above]) =>
    stationsOfTwo.map(({ station, wall }): Reading => {
      const value = 8 + (offsets[station] ?? 0) + (wall === 'T' ? above : 0);
      return {
        ...{ date, wall, station, instrument: 'core', value: { kind: 'measured', value } },
        ...{ reader: 'R1', knewArm: 'no', origin },
      };
    }),
  );
  const treatedOn = '2024-01-15';
  const protocol = { ...soundProtocol, windows: windowsOfTwo, plannedOn: '2022-12-01' };
  return madeTrial(
    [
      { wall: 'T', arm: 'treated', treatedOn },
      { wall: 'U', arm: 'sham', treatedOn },
    ],
    { protocol, stations: stationsOfTwo, readings: readings.filter((reading) => !isLost(reading)), ...changes },
  );
}
