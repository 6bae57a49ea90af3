import { addDays } from '../../../src/plain/days.js';
import type { Belief, BlockCheck, Reading, Station, Trial } from '../../../src/trial/index.js';
import { airOf } from './air-of.js';
import type { SeriesBase } from './base.js';
import { everyDays } from './calendar.js';
import { drawsFrom, rounded } from './own-random.js';
import { protocolOf } from './protocol-of.js';

const treatedOn = '2024-06-15';
const whole = {
  before: { from: '2023-06-01', to: '2024-05-31' },
  after: { from: '2024-07-01', to: '2025-06-30' },
} as const;

/** Of the difference of the walls from visit to visit, and of a reading. */
const SPREAD = { difference: 0.5, reading: 0.3 } as const;

const plainSeries: SeriesBase = { visits: 24, autocorrelation: 0, effect: 0 };

/**
 * One treated and one untreated wall of a house, read on the same days through a whole year before and after. Sound but for
 * being two walls.
 *
 * @example soundSeries(1, { visits: 12 }).readings.length // 96
 */
export function soundSeries(seed: number, changed: Partial<SeriesBase> = {}): Trial {
  const { visits, autocorrelation, effect } = { ...plainSeries, ...changed };
  const draws = drawsFrom(seed);
  const plan = protocolOf(
    { design: 'complete', outcome: 'direct-meter', arms: 'device-and-sham', beside: 'nothing' },
    seed,
  );
  const step = visits === 12 ? 30 : 15;
  const days = [addDays(whole.before.from, 4), addDays(whole.after.from, 4)].flatMap((first) =>
    everyDays(first, addDays(first, (visits - 1) * step), step),
  );
  const walls = ['W01', 'W02'].map((wall, at) => ({
    ...{ wall, arm: at === 0 ? 'device' : 'sham', site: 'house', material: 'brick in lime mortar', thickness_mm: 330 },
    ...{ dryDensity_kg_m3: 1700, treatedOn, origin: { file: 'walls.csv', row: at + 2 } },
  }));
  const stations: Station[] = walls.flatMap(({ wall }) =>
    [300, 700].map((height_mm) => ({
      ...{ station: `${wall}-${height_mm}`, wall, height_mm, depth_mm: 165 },
      origin: { file: 'stations.csv', row: 2 },
    })),
  );
  const readings: Reading[] = [];
  let carried = draws.normal();
  for (const [number, date] of days.entries()) {
    if (number > 0) carried = autocorrelation * carried + Math.sqrt(1 - autocorrelation ** 2) * draws.normal();
    const shared = 11 + 1.2 * Math.sin((2 * Math.PI * number) / visits) + 0.4 * draws.normal();
    for (const { station, wall, height_mm } of stations) {
      const ofTreated = wall === 'W01' ? SPREAD.difference * carried + (date >= treatedOn ? effect : 0) : 0.6;
      const height = height_mm === 300 ? 1 : -1;
      const value = rounded(shared + height + ofTreated + SPREAD.reading * draws.normal(), 2);
      readings.push({
        ...{ date, wall, station, instrument: 'meter', value: { kind: 'measured', value } },
        ...{ reader: number % 2 === 0 ? 'R1' : 'R2', knewArm: 'no' },
        origin: { file: 'readings.csv', row: readings.length + 2 },
      });
    }
  }
  const checks: BlockCheck[] = days.map((date, number) => ({
    ...{ date, instrument: 'meter', block: 'dry block', reader: number % 2 === 0 ? 'R1' : 'R2' },
    value: { kind: 'measured', value: rounded(8 + 0.05 * draws.normal(), 2) },
    origin: { file: 'checks.csv', row: number + 2 },
  }));
  const last = days.at(-1) ?? whole.after.to;
  const beliefs: Belief[] = walls.flatMap(({ wall }, at) =>
    ['R1', 'R2'].map((person, which) => ({
      ...{ date: last, person, role: 'reader', wall, believedArm: 'unknown', readingDate: last },
      origin: { file: 'blinding.csv', row: 2 * at + which + 2 },
    })),
  );
  return {
    protocol: { ...plan, windows: whole, plannedOn: '2023-05-12' },
    ...{ walls, stations, readings, cores: [], checks, beliefs },
    climate: airOf(['house'], '2023-05-22', '2025-06-30', draws),
    events: [
      {
        ...{ date: treatedOn, kind: 'installed', note: 'device and sham fixed' },
        origin: { file: 'diary.csv', row: 2 },
      },
    ],
    source: { fingerprint: (seed >>> 0).toString(16).padStart(8, '0'), files: [] },
  };
}
