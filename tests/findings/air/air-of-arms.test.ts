import { describe, expect, it } from 'vitest';
import type { Side } from '../../../src/analysis/index.js';
import { airBeside, airOfArms } from '../../../src/findings/air/air-of-arms.js';
import { placesBeside } from '../../../src/findings/air/places-beside.js';
import { pressureByWall } from '../../../src/findings/air/pressure-by-wall.js';
import { airBlocks } from '../../../src/report/sections/air-blocks.js';
import { toMarkdown } from '../../../src/report/writers/to-markdown.js';
import type { ClimateReading, Trial } from '../../../src/trial/index.js';
import { madeTrial, wallsWithChanges } from '../../helpers/made-trial.js';

const origin = { file: 'climate.csv', row: 2 };
const at = (time: string, place: string, relative_humidity_pct: number, temperature_c = 20): ClimateReading => ({
  ...{ time, place, temperature_c, relative_humidity_pct },
  origin,
});
/** Two readings in either window; at 20 °C each point of humidity takes 23.3 Pa of the potential away. */
const both = (place: string, before: number, after: number) => [
  at('2024-04-01', place, before),
  at('2024-05-01', place, before),
  at('2025-04-01', place, after),
  at('2025-05-01', place, after),
];

const walls = wallsWithChanges([0, 0], [0, 0]);
const trial = (sites: readonly (string | undefined)[], climate: readonly ClimateReading[]): Trial => {
  const made = madeTrial(walls, { climate });
  return {
    ...made,
    walls: made.walls.map(({ site: _, ...wall }, k) => (sites[k] === undefined ? wall : { ...wall, site: sites[k] })),
  };
};
const sides: ReadonlyMap<string, Side> = new Map(
  walls.map(({ wall, arm }) => [wall, arm === 'treated' ? 'treated' : 'untreated']),
);
const rooms = ['room 1', 'room 2', 'room 3', 'room 4'];

describe('placesBeside(walls, recorded), pressureByWall(trial)', () => {
  it('takes a wall’s own place, else places that are no wall’s site, else those beside other walls', () => {
    const own = placesBeside(trial(rooms, []).walls, ['room 1', 'yard', 'roof']);
    expect(own('T1')).toEqual({ source: 'own', places: ['room 1'] });
    expect(own('T2')).toEqual({ source: 'general', places: ['yard', 'roof'] });
    expect(placesBeside(trial(rooms, []).walls, ['room 1'])('T2')).toEqual({
      source: 'other-walls',
      places: ['room 1'],
    });
    expect(placesBeside(trial(rooms, []).walls, [])('T1')).toBeUndefined();
  });

  it('never mixes a wall’s own place with others, also on days that it lacks', () => {
    const climate = [at('2024-04-01', 'room 1', 50), at('2024-04-02', 'yard', 90), at('2024-04-01', 'yard', 90)];
    const pressureOf = pressureByWall(trial(rooms, climate));
    expect(pressureOf('T1')?.daily.map(({ day, pressure_pa }) => [day, Math.round(pressure_pa)])).toEqual([
      ['2024-04-01', 1166],
    ]);
    expect(pressureOf('T2')?.daily.map(({ pressure_pa }) => Math.round(pressure_pa))).toEqual([233, 233]);
  });

  it('counts places alike, however often each was read, and leaves readings out that say nothing', () => {
    const climate = [
      at('2024-04-01T00:00', 'yard', 50),
      at('2024-04-01T12:00', 'yard', 50),
      at('2024-04-01', 'roof', 100),
      at('2024-04-01', 'roof', 0),
      at('2024-04-02', 'roof', 50, -80),
    ];
    const daily = pressureByWall(trial(rooms, climate))('T1')?.daily;
    expect(daily).toHaveLength(1);
    expect(daily?.[0]?.pressure_pa).toBeCloseTo(1166.3 / 2, 0);
  });

  it('takes the temperature of the surface where there is one: 13 °C in air of 20 °C and 70 % takes up water', () => {
    const [cold] =
      pressureByWall(trial(rooms, [{ ...at('2024-04-01', 'yard', 70), surface_c: 13 }]))('T1')?.daily ?? [];
    const [warm] = pressureByWall(trial(rooms, [at('2024-04-01', 'yard', 70)]))('T1')?.daily ?? [];
    // B4 by hand: 1494.9 − 1632.8 and 2332.6 − 1632.8 Pa.
    expect(cold?.pressure_pa.toFixed(0)).toMatch(/^-13[5-9]$/);
    expect(warm?.pressure_pa).toBeCloseTo(700, -1);
  });

  it('surfaces count from nine readings in ten of each place that stands for a wall, and never for a limit', () => {
    const cold = (day: number) => ({ ...at(`2024-04-${String(day).padStart(2, '0')}`, 'yard', 70), surface_c: 13 });
    const plain = (day: number) => at(`2024-04-${String(day).padStart(2, '0')}`, 'yard', 70);
    const days = (measured: number, all: number) =>
      Array.from({ length: all }, (_, day) => (day < measured ? cold(day + 1) : plain(day + 1)));
    const pressures = (climate: readonly ClimateReading[], ...more: ['as-the-air'?]) =>
      (pressureByWall(trial(rooms, climate), ...more)('T1')?.daily ?? []).map(({ pressure_pa }) =>
        Math.round(pressure_pa),
      );
    expect(pressures(days(9, 10))).toEqual(Array(9).fill(-138));
    expect(pressures(days(8, 9))).toEqual(Array(9).fill(700));
    expect(pressures(days(9, 9), 'as-the-air')).toEqual(Array(9).fill(700));
    // One arm measured by its surfaces and the other by the air would differ by the measure alone.
    const room = (place: string, surface_c?: number) => [
      { ...at('2024-04-01', place, 70), ...(surface_c === undefined ? {} : { surface_c }) },
    ];
    expect(pressures([...room('room 1', 13), ...room('room 3')])).toEqual([700]);
    expect(pressures([...room('room 1', 13), ...room('room 3', 13), ...room('attic')])).toEqual([700]);
    expect(
      pressures([...['room 1', 'room 2', 'room 3', 'room 4'].flatMap((one) => room(one, 13)), ...room('attic')]),
    ).toEqual([-138]);
  });
});

describe('airOfArms(trial, sides)', () => {
  const climate = (treated: number, untreated = 60) => [
    ...both('room 1', 60, treated),
    ...both('room 2', 60, treated),
    ...both('room 3', 60, untreated),
    ...both('room 4', 60, untreated),
  ];

  it('is each wall’s own place, before and after, and the ratio of the changes (by hand)', () => {
    const found = airOfArms(trial(rooms, climate(40, 60)), sides);
    expect(found?.arms.map(({ arm, walls: count, own }) => [arm, count, own])).toEqual([
      ['treated', 2, 2],
      ['sham', 2, 2],
    ]);
    expect(found?.sides.treated.before_pa).toBeCloseTo(0.4 * 2332.6, 0);
    expect(found?.sides.treated.change_pa).toBeCloseTo(0.2 * 2332.6, 0);
    expect(found?.sides.untreated.change_pa).toBeCloseTo(0, 10);
    expect(found?.ratio).toBeCloseTo(1.5, 6);
    expect(found?.airUnlike).toBe(true);
  });

  it('airUnlike on either side of 0.8 and of 1.25', () => {
    // 40 points of drying before: 49.9 or 50.1 after make 1.2475 or 1.2525, 32.1 or 31.9 make 0.8025 or 0.7975.
    const unlike = (drying: number) => airOfArms(trial(rooms, climate(100 - drying)), sides)?.airUnlike;
    expect([49.9, 50.1, 32.1, 31.9].map(unlike)).toEqual([false, true, false, true]);
  });

  it('a ratio of exactly 0.8 or 1.25 counts as alike', () => {
    const alike = (after_pa: number) => {
      const wall = { arm: 'any', isOwn: true, before_pa: 1000 };
      const of = [
        { ...wall, wall: 'T1', side: 'treated' as const, after_pa },
        { ...wall, wall: 'U1', side: 'untreated' as const, after_pa: 1000 },
      ];
      const found = airOfArms(trial(rooms, []), sides, of);
      return [found?.ratio, found?.airUnlike];
    };
    expect([800, 1250, 799, 1251].map(alike)).toEqual([
      [0.8, false],
      [1.25, false],
      [0.799, true],
      [1.251, true],
    ]);
  });

  it('is the same for all where there is only one record, and none without both windows or for one side', () => {
    const general = airOfArms(trial(rooms, both('yard', 60, 40)), sides);
    expect(general?.ratio).toBeCloseTo(1, 12);
    expect(general?.arms.map(({ own }) => own)).toEqual([0, 0]);
    expect(airOfArms(trial(rooms, both('yard', 60, 40).slice(0, 2)), sides)).toBeUndefined();
    expect(airOfArms(trial(rooms, []), sides)).toBeUndefined();
    const alone = new Map([...sides].filter(([, side]) => side === 'treated'));
    expect(airOfArms(trial(rooms, both('yard', 60, 40)), alone)).toBeUndefined();
  });

  it('gives no ratio where the air was saturated; the walls’ own temperature changes none, for it compares the air', () => {
    const sites = ['room 1', 'room 1', 'room 3', 'room 4'];
    const ratioOf = (beside: readonly ClimateReading[]) =>
      airOfArms(trial(sites, [...beside, ...both('yard', 60, 60)]), sides)?.ratio;
    const wet = both('room 1', 60, 60);
    expect(ratioOf(wet)).toBeCloseTo(1, 10);
    expect(ratioOf(wet.map((row) => ({ ...row, surface_c: 5 })))).toBeCloseTo(1, 10);
    expect(ratioOf(both('room 1', 60, 100))).toBeUndefined();
    const saturated = airOfArms(trial(sites, [...both('room 1', 60, 103), ...both('yard', 60, 60)]), sides);
    expect([saturated?.sides.treated.after_pa, saturated?.airUnlike]).toEqual([0, undefined]);
  });

  it('stands below the table of the air, with what counts as alike', () => {
    const words = (of: ReturnType<typeof airOfArms>) => {
      const row = { place: 'treated' as const, window: 'before' as const, places: 1, readings: 2 };
      const rest = { temperature_c: 20, vapourPressure_pa: 1, vapourDensity_g_m3: 1, evaporation_pa: 1 };
      const blocks = airBlocks([{ ...row, ...rest }], of);
      return toMarkdown({ kicker: '', title: '', sections: [{ id: 'air', heading: '', blocks }] });
    };
    const unlike = words(airOfArms(trial(rooms, climate(40)), sides));
    expect(unlike).toContain('treated over untreated, is 1.50; 0.80 to 1.25 counts as alike (our convention)');
    expect(unlike).toContain('The air changed unlike');
    expect(words(airOfArms(trial(rooms, climate(60)), sides))).not.toContain('changed unlike');
    expect(words(airOfArms(trial(rooms, both('yard', 60, 40)), sides))).not.toContain('counts as alike');
  });
});

describe('airBeside(trial, sides)', () => {
  const coverOf = (sites: readonly (string | undefined)[], climate: readonly ClimateReading[] = []) =>
    airBeside(trial(sites, climate), sides);

  it('is one-roof where every wall shares its site with a wall of the other side, with a record or without', () => {
    expect(coverOf(['a', 'b', 'a', 'b'])).toEqual({
      cover: 'one-roof',
      walls: walls.map(({ wall }) => ({ wall, side: sides.get(wall), isRecorded: false, isShared: true })),
    });
    // Two walls of one side under a roof share nothing with the other side.
    expect(coverOf(['a', 'a', 'b', 'b']).cover).toBe('none');
    expect(coverOf(['a', 'b', 'a', 'c']).cover).toBe('none');
    expect(coverOf([undefined, undefined, undefined, undefined]).cover).toBe('none');
  });

  it('is one-roof from nine walls in ten on that share their site with the other side', () => {
    const made = madeTrial(wallsWithChanges(Array(10).fill(0), Array(10).fill(0)));
    const own = new Map(
      made.walls.map(({ wall, arm }): [string, Side] => [wall, arm === 'treated' ? arm : 'untreated']),
    );
    const apart = (count: number) => ({
      ...made,
      walls: made.walls.map((wall, k) => ({ ...wall, site: k < count ? `shed ${k}` : 'the garden' })),
    });
    expect(airBeside(apart(2), own).cover).toBe('one-roof');
    expect(airBeside(apart(3), own).cover).toBe('none');
  });

  it('is both-recorded from a quarter of the walls of either side on', () => {
    const one = [...both('room 1', 60, 60), ...both('room 3', 60, 60)];
    expect(coverOf(rooms, one)).toMatchObject({
      cover: 'both-recorded',
      walls: [{ isRecorded: true }, { isRecorded: false }, { isRecorded: true }, { isRecorded: false }],
    });
    expect(coverOf(rooms, both('room 1', 60, 60)).cover).toBe('general-only');
    const five = wallsWithChanges([0, 0, 0, 0, 0], [0]);
    const made = madeTrial(five, { climate: [...both('room 1', 60, 60), ...both('room 6', 60, 60)] });
    const placed = { ...made, walls: made.walls.map((wall, k) => ({ ...wall, site: `room ${k + 1}` })) };
    const own = new Map(five.map(({ wall, arm }): [string, Side] => [wall, arm === 'treated' ? arm : 'untreated']));
    expect(airBeside(placed, own).cover).toBe('general-only');
    expect(airBeside({ ...placed, walls: placed.walls.slice(1) }, new Map([...own].slice(1))).cover).toBe(
      'general-only',
    );
    const four = { ...placed, walls: placed.walls.filter(({ wall }) => wall !== 'T5') };
    expect(airBeside(four, new Map([...own].filter(([wall]) => wall !== 'T5'))).cover).toBe('both-recorded');
  });

  it('is general-only with other air, and none where a window lacks it', () => {
    expect(coverOf(rooms, both('yard', 60, 60)).cover).toBe('general-only');
    expect(coverOf(rooms, both('yard', 60, 60).slice(0, 3)).cover).toBe('none');
  });
});
