import { describe, expect, it } from 'vitest';
import { airRecord } from '../../../src/findings/air/air-record.js';
import { formOpinion } from '../../../src/index.js';
import { airBlocks } from '../../../src/report/sections/air-blocks.js';
import { opinionJson } from '../../../src/report/writers/opinion-json.js';
import type { ClimateReading } from '../../../src/trial/index.js';
import { madeTrial, wallsWithChanges } from '../../helpers/made-trial.js';

const origin = { file: 'climate.csv', row: 2 };
const at = (time: string, place: string, surface_c?: number, relative_humidity_pct = 70): ClimateReading => ({
  ...{ time, place, temperature_c: 20, relative_humidity_pct, origin },
  ...(surface_c === undefined ? {} : { surface_c }),
});
const both = (place: string, before?: number, after?: number, humidity = 70) => [
  at('2024-04-01', place, before, humidity),
  at('2024-05-01', place, before, humidity),
  at('2025-04-01', place, after, humidity),
  at('2025-05-01', place, after, humidity),
];
const made = madeTrial(wallsWithChanges([-3, -3.2], [0, 0.2]));
const walls = made.walls.map((wall, k) => ({ ...wall, site: `room ${k + 1}` }));
const sides = new Map(
  walls.map(({ wall, arm }) => [wall, arm === 'treated' ? ('treated' as const) : ('untreated' as const)]),
);
const recordOf = (climate: readonly ClimateReading[]) => airRecord({ ...made, walls, climate }, sides);
const words = (climate: readonly ClimateReading[]) => JSON.stringify(airBlocks([], undefined, recordOf(climate)));

describe('airRecord(trial, sides)', () => {
  it('counts what hygrometers showed above 100 %, and says how much it was', () => {
    const climate = [100, 100.1, 104.5, 60].map((humidity) => at('2024-04-01', 'yard', undefined, humidity));
    expect(recordOf(climate)).toMatchObject({ humidityReadings: 4, aboveSaturation: 2, highestShown_pct: 104.5 });
    expect(words(climate)).toContain('2 readings of 4 showed a relative humidity above 100 % (up to 104.5 %)');
    expect(words(climate)).toContain('up to 105 % (common practice, no source)');
    expect(words(climate.slice(0, 1))).toBe('[]');
    expect(recordOf([])).toBeUndefined();
  });

  it('by arm and window: −138 and +700 Pa, below the dew point always and never, worked by hand', () => {
    const climate = [
      ...both('room 1', 13, 20),
      ...both('room 2', 20, 20),
      ...both('room 3', 13, 13),
      ...both('room 9', 13, 13),
    ];
    const found = (recordOf(climate)?.surfaces ?? []).map(
      ({ arm, window, walls, own, evaporation_pa, condensingShare }) => [
        ...[arm, window, walls, own, Math.round(evaporation_pa), condensingShare],
      ],
    );
    // 1494.8 − 1632.8 Pa over a wall of 13 °C, 2332.6 − 1632.8 Pa over one of 20 °C; the mean of both is 280.9. The fourth wall has
    // no surface of its own: that of room 9, the site of no wall, stands for it.
    expect(found).toEqual([
      ['treated', 'before', 2, 2, 281, 0.5],
      ['treated', 'after', 2, 2, 700, 0],
      ['sham', 'before', 2, 1, -138, 1],
      ['sham', 'after', 2, 1, -138, 1],
    ]);
    const text = words(climate);
    for (const part of [
      '90 % of the readings',
      '(our convention)',
      'Below the dew point',
      '+281',
      '−138',
      '"50"',
      '"100"',
    ])
      expect(text).toContain(part);
    expect(words(both('room 1'))).toBe('[]');
  });

  it('stands in opinion.json', () => {
    const climate = [...both('room 1', 13, 13, 102), ...both('room 3', 20, 20)];
    const json = JSON.parse(opinionJson(formOpinion({ ...made, walls, climate })));
    expect(json.airRecord).toMatchObject({ humidityReadings: 8, countedAs100: 4, highestShown_pct: 102 });
    expect(json.airRecord.surfaces).toHaveLength(4);
    expect(json.airRecord.surfaces[0]).toMatchObject({ arm: 'treated', window: 'before', condensingShare: 1 });
    expect('airRecord' in JSON.parse(opinionJson(formOpinion(made)))).toBe(false);
  });
});
