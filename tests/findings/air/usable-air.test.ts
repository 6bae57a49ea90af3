import { describe, expect, it } from 'vitest';
import { airInOrder } from '../../../src/findings/air/air-in-order.js';
import { humidityBeside } from '../../../src/findings/air/humidity-beside.js';
import { usableAir } from '../../../src/findings/air/usable-air.js';
import type { ClimateReading } from '../../../src/trial/index.js';
import { madeTrial, wallsWithChanges } from '../../helpers/made-trial.js';

const origin = { file: 'climate.csv', row: 2 };
const reading = (further: Partial<ClimateReading> = {}): ClimateReading => ({
  ...{ time: '2024-04-01T06:00', place: 'yard', temperature_c: 10, relative_humidity_pct: 80, origin },
  ...further,
});

describe('usableAir(reading)', () => {
  it.each([
    [{ temperature_c: -45 }, true],
    [{ temperature_c: -45.1 }, false],
    [{ temperature_c: 60 }, true],
    [{ temperature_c: 60.1 }, false],
    [{ relative_humidity_pct: 105 }, true],
    [{ relative_humidity_pct: 105.1 }, false],
    [{ relative_humidity_pct: 0 }, false],
  ])('%o is usable: %s', (further, isUsable) => {
    expect(usableAir(reading(further)) !== undefined).toBe(isUsable);
  });

  it('takes a surface within the same range alone, and nothing of a reading without air', () => {
    expect(usableAir(reading({ surface_c: 60 }))?.surface_c).toBe(60);
    expect(usableAir(reading({ surface_c: 60.1 }))).not.toHaveProperty('surface_c');
    const { temperature_c: _, ...without } = reading({ surface_c: 12 });
    expect(usableAir(without)).toBeUndefined();
  });

  it('counts hours: 24 from day to day, a day without a time at its noon, a zone taken off', () => {
    const hour = (time: string) => usableAir(reading({ time }))?.time_h ?? 0;
    expect(hour('2024-04-02T06:00') - hour('2024-04-01T06:00')).toBe(24);
    expect(hour('2024-04-01')).toBe(hour('2024-04-01T12:00'));
    expect(hour('2024-04-01T06:00+02:00')).toBe(hour('2024-04-01T04:00Z'));
  });
});

describe('airInOrder(readings)', () => {
  it('sorts by time, keeps the first of one time, and leaves out what has none', () => {
    const at = (time_h: number, temperature_c: number) => ({ time_h, temperature_c, relativeHumidity_pct: 50 });
    const found = airInOrder([at(5, 1), at(Number.NaN, 2), at(3, 3), at(5, 4)]);
    expect(found.map(({ time_h, temperature_c }) => [time_h, temperature_c])).toEqual([
      [3, 3],
      [5, 1],
    ]);
  });
});

describe('humidityBeside(trial)', () => {
  it('is the mean of the window over the places that stand for the wall, 103 % counting as 100 %', () => {
    const made = madeTrial(wallsWithChanges([-3], [0]));
    const walls = made.walls.map((wall, k) => ({ ...wall, site: `room ${k + 1}` }));
    const climate = [
      reading({ place: 'room 1', relative_humidity_pct: 103 }),
      reading({ place: 'room 1', relative_humidity_pct: 80 }),
      reading({ place: 'room 1', relative_humidity_pct: 60, time: '2025-04-01' }),
      reading({ place: 'room 1', relative_humidity_pct: 20, time: '2024-08-01' }),
      reading({ place: 'yard', relative_humidity_pct: 70 }),
      reading({ place: 'attic', relative_humidity_pct: 50 }),
      reading({ place: 'attic', relative_humidity_pct: 50 }),
    ];
    const of = humidityBeside({ ...made, walls, climate });
    const [own = '', other = ''] = walls.map(({ wall }) => wall);
    expect([of(own, 'before'), of(own, 'after'), of(other, 'before')]).toEqual([90, 60, 60]);
    expect(humidityBeside({ ...made, walls, climate: [] })(own, 'before')).toBeUndefined();
  });
});
