import { comparisonDesign, stationChanges, wallChanges } from '../../src/analysis/index.js';
import { type MoistureReading, moistureReadings } from '../../src/moisture/index.js';
import type { Reading, Trial } from '../../src/trial/index.js';
import { madeTrial } from './made-trial.js';

/** A reading's place in the making of a trial: indices count from 0. */
export interface MadeReading {
  readonly wall: number;
  readonly isTreated: boolean;
  readonly place: number;
  readonly window: 'before' | 'after';
  readonly visit: number;
}

export interface StationTrial {
  /** Walls of each side. */
  readonly walls?: number;
  readonly heights?: readonly number[];
  readonly visits?: number;
  readonly isPaired?: boolean;
  /** Nothing for a reading that was not taken. */
  readonly value: (reading: MadeReading) => number | undefined;
  readonly reading?: (reading: MadeReading) => Partial<Reading>;
  readonly changes?: Partial<Trial>;
}

/** Walls of two arms, treated and untreated in turn, with a station at each height, read with the outcome's instrument. */
export function stationTrial(options: StationTrial): Trial {
  const {
    walls: each = 6,
    heights = [200, 700, 1400],
    visits = 2,
    isPaired = false,
    value,
    reading,
    changes,
  } = options;
  const walls = Array.from({ length: 2 * each }, (_, index) => ({
    wall: `W${index}`,
    arm: index % 2 === 0 ? 'treated' : 'sham',
    ...(isPaired ? { block: `B${Math.floor(index / 2)}` } : {}),
  }));
  const stationOf = (wall: string, place: number) => `${wall}-${place}`;
  const readings: Reading[] = [];
  for (const [window, year] of [
    ['before', 2024],
    ['after', 2025],
  ] as const)
    for (let visit = 0; visit < visits; visit++)
      for (const [index, { wall }] of walls.entries())
        for (const place of heights.keys()) {
          const made = { wall: index, isTreated: index % 2 === 0, place, window, visit };
          const found = value(made);
          if (found === undefined) continue;
          readings.push({
            date: `${year}-04-${String(1 + 2 * visit).padStart(2, '0')}`,
            ...{ wall, station: stationOf(wall, place), instrument: 'core', reader: 'R1', knewArm: 'no' },
            value: { kind: 'measured', value: found },
            origin: { file: 'readings.csv', row: readings.length + 2 },
            ...reading?.(made),
          });
        }
  const stations = walls.flatMap(({ wall }) =>
    heights.map((height_mm, place) => ({
      ...{ station: stationOf(wall, place), wall, height_mm, depth_mm: 50 },
      origin: { file: 'stations.csv', row: 2 },
    })),
  );
  return madeTrial(walls, { readings, stations, ...changes });
}

/** What an analysis of the outcome starts from. */
export function analysed(trial: Trial) {
  const all: readonly MoistureReading[] = moistureReadings(trial);
  const readings = all.filter(({ instrument }) => instrument === trial.protocol.outcome.instrument);
  const changes = stationChanges(trial, readings);
  const { design } = comparisonDesign(wallChanges(trial, changes.stations).walls);
  return { readings, changes, design };
}
