import { join } from 'node:path';
import fc from 'fast-check';
import { beforeAll, describe, expect, it } from 'vitest';
import type { Side } from '../../../src/analysis/index.js';
import { dryingChecks } from '../../../src/findings/drying/drying-checks.js';
import { dryingFacts } from '../../../src/findings/drying/drying-facts.js';
import { dryingFactsJson } from '../../../src/findings/drying/drying-facts-json.js';
import { impliedEvaporation } from '../../../src/findings/drying/implied-evaporation.js';
import { startsOfWalls, treatmentSpread } from '../../../src/findings/drying/starts-of-walls.js';
import { waitOfTrial } from '../../../src/findings/drying/wait-of-trial.js';
import { moistureReadings, readTrial } from '../../../src/index.js';
import type { Opinion } from '../../../src/opinion/opinion.js';
import { addDays } from '../../../src/plain/days.js';
import { dryingFactsBlocks } from '../../../src/report/sections/drying-facts-blocks.js';
import { toMarkdown } from '../../../src/report/writers/to-markdown.js';
import type { ClimateReading, Trial, Wall } from '../../../src/trial/index.js';
import { expectRelative } from '../../helpers/expect-relative.js';
import { madeTrial, soundProtocol, wallsWithChanges } from '../../helpers/made-trial.js';

const origin = { file: 'climate.csv', row: 2 };

/** Air at a place on every day. At 4.8 °C and 87.66 % a wet wall has 106 Pa more than the air. */
function air(
  place: string,
  { from = '2024-03-01', days = 500, temperature_c = 4.8, humidity = 87.66, rain_mm, heating_h }: AirOptions = {},
): ClimateReading[] {
  return Array.from({ length: days }, (_, k) => ({
    time: addDays(from, k),
    place,
    temperature_c,
    relative_humidity_pct: humidity,
    ...(rain_mm === undefined ? {} : { rain_mm }),
    ...(heating_h === undefined ? {} : { heating_h }),
    origin,
  }));
}
interface AirOptions {
  readonly from?: string;
  readonly days?: number;
  readonly temperature_c?: number;
  readonly humidity?: number;
  readonly rain_mm?: number;
  readonly heating_h?: number;
}

const sidesOf = ({ walls }: Trial): ReadonlyMap<string, Side> =>
  new Map(walls.map(({ wall, arm }) => [wall, arm === 'treated' ? 'treated' : 'untreated']));

/** Two treated and two untreated walls; the last visit before and the first after lie `gap` days apart, the treatment on the day between. */
function quick(falls: readonly number[], gap: number, changes: Partial<Trial> = {}, wall: Partial<Wall> = {}): Trial {
  const [first, last] = ['2024-12-02', addDays('2024-12-02', gap)];
  const windows = {
    before: { from: '2024-09-01', to: '2024-12-02' },
    after: { from: '2024-12-04', to: '2025-03-31' },
  };
  const made = madeTrial(wallsWithChanges(falls.slice(0, 2), falls.slice(2)), {
    protocol: { ...soundProtocol, windows },
    ...changes,
  });
  return {
    ...made,
    walls: made.walls.map((each) => ({
      ...each,
      site: `cellar ${each.wall}`,
      thickness_mm: 330,
      treatedOn: '2024-12-03',
      ...wall,
    })),
    readings: made.readings.map((each) => ({ ...each, date: each.date < '2025' ? first : last })),
  };
}

const evaporationOf = (trial: Trial) => {
  const implied = impliedEvaporation(trial, moistureReadings(trial), sidesOf(trial));
  if (implied.kind === 'not-computed') throw new Error(implied.reason.code);
  return implied;
};
const readOf = (trial: Trial) => ({ trial, readings: moistureReadings(trial), sides: sidesOf(trial) });
const wordsOf = (trial: Trial) => {
  const { readings, sides } = readOf(trial);
  const blocks = dryingFactsBlocks(dryingFacts(trial, readings, sides), { protocol: trial.protocol } as Opinion);
  return toMarkdown({ kicker: '', title: '', sections: [{ id: 'drying', heading: '', blocks }] });
};

describe('impliedEvaporation(trial, readings, sides)', () => {
  it('is change × density × thickness over the wall’s own days, beside two faces at 75e-9 (by hand)', () => {
    const { walls, arms } = evaporationOf(quick([-9.4, -9.4, 0, 0], 28, { climate: air('yard') }));
    expect(walls[0]).toMatchObject({ wall: 'T1', from: '2024-12-02', to: '2024-12-30', days: 28, density_kg_m3: 1700 });
    expectRelative(walls[0]?.lost_kg_m2, 0.094 * 0.33 * 1700, 1e-10);
    expect(walls[0]?.evaporation_mm_d.toFixed(2)).toBe('1.88');
    expect(walls[0]?.air).toMatchObject({ source: 'general', exposure: 'not-stated', isRaised: false });
    expect(walls[0]?.air.pressure_pa?.toFixed(0)).toBe('106');
    expectRelative(walls[0]?.air.evaporation_mm_d, 2 * 75e-9 * 106 * 86_400, 0.001);
    expect(arms.map(({ arm, exceeding, exceedsAir }) => [arm, exceeding, exceedsAir])).toEqual([
      ['treated', 2, true],
      ['sham', 0, false],
    ]);
  });

  it('an arm exceeds the air where the whole interval of its mean does: of walls that lost 9.4 and 5.4 % only one does', () => {
    const [treated] = evaporationOf(quick([-9.4, -5.4, 0, 0], 28, { climate: air('yard') })).arms;
    // 1.88 and 1.08 mm a day, less 1.37 of the air: 0.11 on average, and with one degree of freedom known to ± 5.
    expect(treated).toMatchObject({ walls: 2, exceeding: 1, exceedsAir: false });
    expect((treated?.evaporation_mm_d ?? 0) - (treated?.air_mm_d ?? 0)).toBeCloseTo(0.11, 1);
  });

  it('exceedsAir on either side of the limit: 1.374 mm a day is 6.86 % of such a wall in 28 days', () => {
    const climate = air('yard');
    const exceeds = (fall: number, wall: Partial<Wall> = {}) =>
      evaporationOf(quick([-fall, -fall, 0, 0], 28, { climate }, wall)).walls[0]?.exceedsAir;
    expect([exceeds(6.8), exceeds(6.9)]).toEqual([false, true]);
    // Its own density counts where it is stated.
    expect([exceeds(6.8, { dryDensity_kg_m3: 1800 }), exceeds(6.9, { dryDensity_kg_m3: 1600 })]).toEqual([true, false]);
  });

  it('has the lower coefficient where a place is indoors, and sunshine where it is outdoors', () => {
    const limit = (options: AirOptions) =>
      evaporationOf(quick([-1, -1, 0, 0], 28, { climate: air('cellar T1', options) })).walls[0]?.air;
    expect(limit({ heating_h: 2 })).toMatchObject({ exposure: 'indoors', source: 'own' });
    expectRelative(limit({ heating_h: 2 })?.evaporation_mm_d, 2 * 25e-9 * 106 * 86_400, 0.001);
    expectRelative(limit({ rain_mm: 2 })?.evaporation_mm_d, 2 * 75e-9 * 106 * 86_400 + 3.5, 0.001);
    // Both at one site say neither: the higher coefficient, and no sun.
    expect(limit({ rain_mm: 2, heating_h: 2 })).toMatchObject({ exposure: 'not-stated' });
    expectRelative(limit({ rain_mm: 2, heating_h: 2 })?.evaporation_mm_d, 2 * 75e-9 * 106 * 86_400, 0.001);
  });

  it('is generous without a record of half of the days: 1.5 mm a day and face', () => {
    const limit = (days: number) =>
      evaporationOf(quick([-1, -1, 0, 0], 28, { climate: air('yard', { from: '2024-12-02', days }) })).walls[0]?.air;
    expect(limit(14)).toMatchObject({ source: 'none', evaporation_mm_d: 3 });
    expect(limit(15)).toMatchObject({ source: 'general' });
    expect(evaporationOf(quick([-1, -1, 0, 0], 28)).walls[0]?.air).toMatchObject({
      source: 'none',
      evaporation_mm_d: 3,
    });
  });

  it('is no less than that where rooms are heated and their air is not on record', () => {
    const heating: ClimateReading = { time: '2024-12-10', place: 'boiler', heating_h: 40, origin };
    const limit = (climate: readonly ClimateReading[]) =>
      evaporationOf(quick([-1, -1, 0, 0], 28, { climate })).walls[0]?.air;
    expect(limit([...air('yard'), heating])).toMatchObject({ isRaised: true, evaporation_mm_d: 3 });
    expect(limit([...air('yard'), { ...heating, heating_h: 0 }])?.isRaised).toBe(false);
    expect(limit([...air('cellar T1'), heating])?.isRaised).toBe(false);
    // Air that takes more by itself is not lowered.
    const warm = limit([...air('yard', { temperature_c: 20, humidity: 50 }), heating]);
    expect([warm?.isRaised, (warm?.evaporation_mm_d ?? 0) > 3]).toEqual([false, true]);
  });

  it('6 % in a month is below that limit and 6 % in a winter week above, for 225 mm (notebook 04)', async () => {
    const { climate } = await readTrial(
      join(import.meta.dirname, '..', '..', '..', 'datasets', 'drying-through-seasons'),
    );
    const of = (gap: number) => evaporationOf(quick([-6, -6, 0, 0], gap, { climate }, { thickness_mm: 225 })).walls[0];
    expect(of(30)?.evaporation_mm_d).toBeCloseTo(0.765, 3);
    expect(of(30)?.exceedsAir).toBe(false);
    expect(of(30)?.air).toMatchObject({ source: 'general', isRaised: true, evaporation_mm_d: 3 });
    expect(of(8)?.evaporation_mm_d).toBeLessThan(3);
    expect(of(7)?.exceedsAir).toBe(true);
  });

  it('takes each station from its own last reading before to its own first after', () => {
    const trial = quick([-2, -2, 0, 0], 28);
    const stations = trial.readings.flatMap((reading) => {
      if (reading.wall !== 'T1') return [reading];
      // The upper station is wetter by 5 and read ten days later in either window, and an early visit is no last one.
      const upper = {
        ...reading,
        station: 'up',
        date: addDays(reading.date, reading.date === '2024-12-02' ? -10 : 10),
        value: { kind: 'measured' as const, value: 5 + (reading.value.kind === 'measured' ? reading.value.value : 0) },
      };
      return [reading, upper, { ...reading, date: '2024-09-02', value: { kind: 'measured' as const, value: 30 } }];
    });
    const [wall] = evaporationOf({ ...trial, readings: stations }).walls;
    expect(wall).toMatchObject({ fall_pp: 2, days: (28 + 48) / 2, from: '2024-11-22', to: '2025-01-09' });
  });

  it('goes by the visit by which the wall had fallen fastest, of a week and more where there is one', () => {
    const trial = quick([-1, -1, 0, 0], 28);
    const later = (days: number, value: number) => {
      const [one] = trial.readings.filter(({ wall, date }) => wall === 'T1' && date > '2024-12-03');
      const read = { ...one!, date: addDays('2024-12-02', days), value: { kind: 'measured' as const, value } };
      return evaporationOf({ ...trial, readings: [...trial.readings, read] }).walls[0];
    };
    // T1 stood at 8 before: by day 28 it lost 1, by day 56 another 3.
    expect(later(56, 4)).toMatchObject({ days: 56, fall_pp: 4 });
    expect(later(56, 7)).toMatchObject({ days: 28, fall_pp: 1 });
    expect(later(7, 7)).toMatchObject({ days: 7, fall_pp: 1 });
    expect(later(6, 7)).toMatchObject({ days: 28, fall_pp: 1 });
    expect(evaporationOf(quick([-1, -1, 0, 0], 3)).walls[0]?.days).toBe(3);
  });

  it('counts no reading from the day of the treatment on as one before', () => {
    const trial = quick([-2, -2, 0, 0], 28);
    const treated = trial.walls.map((wall) => ({ ...wall, treatedOn: '2024-12-02' }));
    const early = trial.readings.map((reading) => ({ ...reading, date: '2024-11-02' })).filter((_, k) => k % 2 === 0);
    expect(evaporationOf({ ...trial, walls: treated, readings: [...trial.readings, ...early] }).walls[0]?.days).toBe(
      58,
    );
  });

  it('says why there is none, and names walls without a thickness', () => {
    const trial = quick([-2, -2, 0, 0], 28);
    const reasonOf = (of: Trial) => {
      const implied = impliedEvaporation(of, moistureReadings(of), sidesOf(of));
      return implied.kind === 'not-computed' ? implied.reason : implied.withoutThickness;
    };
    const { thickness_mm: _, ...bare } = trial.walls[0] as Wall;
    expect(reasonOf({ ...trial, walls: [bare, ...trial.walls.slice(1)] })).toEqual(['T1']);
    expect(reasonOf({ ...trial, walls: [bare] })).toEqual({ code: 'no-thickness' });
    const { windows: __, ...open } = trial.protocol;
    expect(reasonOf({ ...trial, protocol: open })).toEqual({ code: 'no-windows' });
    const index = { ...trial.protocol.outcome, unit: 'digits' };
    expect(reasonOf({ ...trial, protocol: { ...trial.protocol, outcome: index } })).toEqual({
      code: 'unit-without-mass',
      unit: 'digits',
    });
    const higher = { ...trial.protocol.outcome, better: 'higher' as const };
    expect(reasonOf({ ...trial, protocol: { ...trial.protocol, outcome: higher } })).toEqual({
      code: 'higher-is-better',
    });
    expect(reasonOf({ ...trial, readings: [] })).toEqual({ code: 'not-in-both-windows' });
  });

  it('is the same for an outcome in kg/kg', () => {
    const trial = quick([-2, -2, 0, 0], 28);
    const share = {
      ...trial,
      protocol: { ...trial.protocol, outcome: { ...trial.protocol.outcome, unit: 'kg/kg' } },
      readings: trial.readings.map((one) => ({
        ...one,
        value: { kind: 'measured' as const, value: one.value.kind === 'measured' ? one.value.value / 100 : 0 },
      })),
    };
    expectRelative(evaporationOf(share).walls[0]?.fall_pp, 2, 1e-10);
  });
});

describe('season-dries-both, treated walls falling from 10.0 to 0.6 % in four December weeks', () => {
  let trial: Trial;
  beforeAll(async () => {
    const read = await readTrial(join(import.meta.dirname, '..', '..', '..', 'datasets', 'season-dries-both'));
    const treated = new Set(read.walls.flatMap(({ wall, arm }) => (arm === 'box' ? [wall] : [])));
    const afterFrom = read.protocol.windows?.after.from ?? '';
    const visits = [...new Set(read.cores.map(({ date }) => date.slice(0, 10)))]
      .filter((day) => day >= afterFrom)
      .sort();
    trial = {
      ...read,
      protocol: {
        ...read.protocol,
        windows: { before: { from: '2023-09-01', to: '2023-12-04' }, after: { from: '2023-12-07', to: '2024-01-05' } },
      },
      cores: read.cores.flatMap((core) => {
        const visit = visits.indexOf(core.date.slice(0, 10));
        if (core.date >= '2023-12-04' && visit < 0) return [];
        const date = visit < 0 ? core.date : addDays('2023-12-05', 7 * (visit % 4) + 7);
        if (core.dry_g === undefined) return [];
        // Straight down in the treated walls; the others stay as they were.
        const fallen = visit < 0 || !treated.has(core.wall) ? 0 : (9.4 * ((visit % 4) + 1)) / 4;
        const moisture = 10 - fallen;
        return [{ ...core, date, wet_g: core.dry_g + ((core.dry_g - core.container_g) * moisture) / 100 }];
      }),
    };
  });

  it('exceeds what the air of 106 Pa could take, and so says the weakness', () => {
    const { readings, sides } = readOf({ ...trial, walls: trial.walls.map((wall) => ({ ...wall, arm: armOf(wall) })) });
    const found = evaporationOf({ ...trial, walls: trial.walls.map((wall) => ({ ...wall, arm: armOf(wall) })) });
    const [arm, other] = found.arms;
    expect(arm).toMatchObject({ side: 'treated', walls: 12, exceedsAir: true });
    expect(other).toMatchObject({ side: 'untreated', exceedsAir: false });
    const checks = dryingChecks(trial, readings, sides);
    expect(checks.beyondCeiling.length).toBe(arm?.exceeding);
    expect(checks.beyondCeiling[0]?.isFromClimate).toBe(true);
    expect(checks.beyondCeiling[0]?.ceiling).toBeLessThan(checks.beyondCeiling[0]?.lost ?? 0);
    expect(checks.wait?.tooEarly).toBe(12);
  });

  const armOf = ({ arm }: Wall) => (arm === 'box' ? 'treated' : 'sham');
});

describe('dryingChecks(trial, readings, sides).beyondCeiling', () => {
  it('is in the outcome’s unit: 9.4 % by mass are 94 g/kg, where the air of 28 days takes 68.6 (by hand)', () => {
    const made = quick([-94, -94, 0, 0], 28, { climate: air('yard') });
    const outcome = { ...soundProtocol.outcome, unit: 'g/kg' };
    const trial = { ...made, protocol: { ...made.protocol, outcome } };
    const { beyondCeiling } = dryingChecks(trial, moistureReadings(trial), sidesOf(trial));
    expect(beyondCeiling.map(({ wall, days }) => [wall, days])).toEqual([
      ['T1', 28],
      ['T2', 28],
    ]);
    expect(beyondCeiling[0]?.lost).toBeCloseTo(94, 9);
    expectRelative(beyondCeiling[0]?.ceiling, (1000 * 28 * 2 * 75e-9 * 106 * 86_400) / (0.33 * 1700), 0.001);
  });
});

describe('waitOfTrial(trial, walls)', () => {
  const wallsOf = (trial: Trial) => [...sidesOf(trial)].map(([wall, side]) => ({ wall, side }));
  const waitOf = (trial: Trial) => {
    const wait = waitOfTrial(trial, wallsOf(trial));
    if (wait === undefined) throw new Error('no windows');
    return wait;
  };

  it('is 98 days for 2 % of 330 mm at 106 Pa on record beside the wall (4 × 24.5, by hand)', () => {
    const { walls, worst } = waitOf(quick([0, 0, 0, 0], 28, { climate: air('cellar T1') }));
    expect(walls.map(({ wall, days }) => [wall, days])).toEqual([
      ['T1', 27],
      ['T2', 27],
    ]);
    expect(walls[0]?.wait?.least_d.toFixed(1)).toBe('24.5');
    expect(walls[0]?.wait?.wait_d.toFixed(0)).toBe('98');
    expect(walls[0]?.wait?.assumed).toEqual(['density']);
    // Without a record of its own it is 100 Pa, and the wall waits longer.
    expect(walls[1]?.wait).toMatchObject({ pressure_pa: 100, assumed: ['density', 'pressure'] });
    expect(worst?.wall).toBe('T2');
  });

  it('says where less was measured at the surface than the wait counts with, and leaves the wait as it is', () => {
    const withSurface = (surface_c: number) =>
      waitOf(quick([0, 0, 0, 0], 28, { climate: air('cellar T1').map((row) => ({ ...row, surface_c })) })).walls[0]
        ?.wait;
    const without = waitOf(quick([0, 0, 0, 0], 28, { climate: air('cellar T1') })).walls[0]?.wait;
    // By hand, with the air’s 753 Pa: a surface at 4 °C holds 813 Pa when wet, one at 2.5 °C 731 Pa, one at 4.8 °C 859 Pa.
    expect(withSurface(4)?.surface_pa).toBeCloseTo(60, -1);
    expect(withSurface(2.5)?.surface_pa).toBeCloseTo(-22, -1);
    expect(withSurface(4.9)).not.toHaveProperty('surface_pa');
    expect(withSurface(2.5)?.wait_d).toBe(without?.wait_d);
  });

  it('counts walls read too early on either side of the wait, and of the least time', () => {
    // 11.22 kg/m² at 100 Pa: 26.0 and 103.9 days after the treatment, which is a day after the last reading before.
    const counts = [26, 27, 104, 105].map((gap) => {
      const { tooEarly, beforeLeast } = waitOf(quick([0, 0, 0, 0], gap));
      return [tooEarly, beforeLeast];
    });
    expect(counts).toEqual([
      [2, 2],
      [2, 0],
      [2, 0],
      [0, 0],
    ]);
  });

  it('without a stated thickness a wall counts as one of 600 mm: 189 days for 2 % at 100 Pa (by hand)', () => {
    const stated = quick([0, 0, 0, 0], 28);
    const walls = stated.walls.map(({ thickness_mm: _, ...wall }) => wall);
    const [wait] = waitOf({ ...stated, walls }).walls.map((one) => one.wait);
    // 20.4 kg/m² over two faces at 25e-9 · 100 Pa · 86 400 s, four times over.
    expectRelative(wait?.wait_d, (4 * 20.4) / 0.432, 1e-12);
    expect(wait).toMatchObject({ thickness_mm: 600, assumed: ['thickness', 'density', 'pressure'] });
  });

  it('a wall read on the very day on which its wait ends was not read too early: 3 % of 144 mm at 1000 kg/m³ take 40 days', () => {
    const trial = quick([0, 0, 0, 0], 41, {}, { thickness_mm: 144, dryDensity_kg_m3: 1000 });
    const { walls, tooEarly } = waitOf({ ...trial, protocol: { ...trial.protocol, margin: 3 } });
    expect(walls.map(({ days, wait }) => [days, wait?.wait_d])).toEqual([
      [40, 40],
      [40, 40],
    ]);
    expect(tooEarly).toBe(0);
  });

  it('counts from each wall’s own treatment to the mean day of its own readings', () => {
    const trial = quick([0, 0, 0, 0], 28);
    const late = { ...trial, walls: trial.walls.map((wall, k) => ({ ...wall, treatedOn: `2024-12-0${3 + k}` })) };
    const again = trial.readings.filter(({ date, wall }) => wall === 'T2' && date > '2024-12-03');
    const readings = [...trial.readings, ...again.map((one) => ({ ...one, date: '2025-01-09' }))];
    expect(waitOf({ ...late, readings }).walls.map(({ days }) => days)).toEqual([27, 31]);
  });

  it('gives days and a reason where there is no wait, and names walls whose day is not on record', () => {
    const trial = quick([0, 0, 0, 0], 28);
    const index = { ...trial.protocol, outcome: { ...trial.protocol.outcome, unit: 'digits' } };
    const { margin: _, ...plan } = trial.protocol;
    for (const [protocol, reason] of [
      [index, { code: 'unit-without-mass', unit: 'digits' }],
      [plan, { code: 'no-margin' }],
    ] as const) {
      const wait = waitOf({ ...trial, protocol });
      expect(wait.reason).toEqual(reason);
      expect(wait.walls.map(({ days, wait: own }) => [days, own])).toEqual([
        [27, undefined],
        [27, undefined],
      ]);
      expect([wait.worst, wait.tooEarly]).toEqual([undefined, 0]);
    }
    const { treatedOn: __, ...undated } = trial.walls[0] as Wall;
    expect(waitOf({ ...trial, walls: [undated, ...trial.walls.slice(1)] }).withoutDay).toEqual(['T1']);
  });

  it('reads days off cores where they are the outcome, those without both masses aside', () => {
    const trial = quick([0, 0, 0, 0], 28);
    const core = { wall: 'T1', station: '', container_g: 0, origin };
    const cores = [
      { ...core, date: '2024-12-20', wet_g: 55, dry_g: 50 },
      { ...core, date: '2025-02-20', wet_g: 55 },
    ];
    expect(waitOf({ ...trial, readings: [], cores }).walls.map(({ wall, days }) => [wall, days])).toEqual([['T1', 17]]);
  });

  it('never makes a trial look less hasty for a statement that is left out', () => {
    const stated = fc.record({
      thickness_mm: fc.integer({ min: 50, max: 1200 }),
      dryDensity_kg_m3: fc.integer({ min: 500, max: 2800 }),
      temperature_c: fc.integer({ min: -5, max: 30 }),
      humidity: fc.integer({ min: 20, max: 100 }),
      gap: fc.integer({ min: 3, max: 110 }),
      rain_mm: fc.option(fc.constant(1), { nil: undefined }),
      heating_h: fc.option(fc.constant(1), { nil: undefined }),
    });
    const without = ['thickness_mm', 'dryDensity_kg_m3', 'site', 'own air', 'other air', 'rain', 'heating'] as const;
    fc.assert(
      fc.property(stated, fc.subarray([...without], { minLength: 1 }), (of, left) => {
        const rows = (lacks: readonly string[]) => {
          const { rain_mm, heating_h, temperature_c, humidity } = of;
          const own = air('cellar T1', {
            temperature_c,
            humidity,
            ...(rain_mm === undefined || lacks.includes('rain') ? {} : { rain_mm }),
            ...(heating_h === undefined || lacks.includes('heating') ? {} : { heating_h }),
          });
          const yard = air('yard', { temperature_c: 20, humidity: 50 });
          return [...(lacks.includes('own air') ? [] : own), ...(lacks.includes('other air') ? [] : yard)];
        };
        const trial = (lacks: readonly string[]): Trial => {
          const made = quick([0, 0, 0, 0], of.gap, { climate: rows(lacks) });
          return {
            ...made,
            walls: made.walls.map((wall) => {
              const full = { ...wall, thickness_mm: of.thickness_mm, dryDensity_kg_m3: of.dryDensity_kg_m3 };
              return Object.fromEntries(Object.entries(full).filter(([key]) => !lacks.includes(key))) as typeof full;
            }),
          };
        };
        const [full, less] = [waitOf(trial([])), waitOf(trial(left))];
        expect(less.tooEarly).toBeGreaterThanOrEqual(full.tooEarly);
        expect(less.beforeLeast).toBeGreaterThanOrEqual(full.beforeLeast);
        for (const [k, { wait }] of full.walls.entries())
          expect(less.walls[k]?.wait?.wait_d).toBeGreaterThanOrEqual(wait?.wait_d ?? Number.POSITIVE_INFINITY);
      }),
      { numRuns: 60 },
    );
  });
});

describe('startsOfWalls(trial, sides), treatmentSpread(trial, sides)', () => {
  const trial = (days: Readonly<Record<string, string>>, blocks: Readonly<Record<string, string>> = {}): Trial => {
    const made = madeTrial(wallsWithChanges([0, 0, 0], [0, 0, 0]));
    return {
      ...made,
      walls: made.walls.map(({ treatedOn: _, ...wall }) => ({
        ...wall,
        ...(days[wall.wall] === undefined ? {} : { treatedOn: days[wall.wall] as string }),
        ...(blocks[wall.wall] === undefined ? {} : { block: blocks[wall.wall] as string }),
      })),
    };
  };
  const startsOf = (of: Trial) => Object.fromEntries(startsOfWalls(of, sidesOf(of))?.startOf ?? []);

  it('counts a treated wall from its own day and an untreated one from its block’s, not from its own', () => {
    const days = { T1: '2024-06-01', T2: '2024-06-05', T3: '2024-09-01', U1: '2024-01-01' };
    const blocks = { T1: 'A', T2: 'A', T3: 'B', U1: 'A', U2: 'B', U3: 'C' };
    expect(startsOf(trial(days, blocks))).toEqual({
      T1: '2024-06-01',
      T2: '2024-06-05',
      T3: '2024-09-01',
      U1: '2024-06-03',
      U2: '2024-09-01',
      // No treated wall in its block: the median day of the trial.
      U3: '2024-06-05',
    });
    expect(startsOf(trial(days)).U1).toBe('2024-06-05');
    expect(treatmentSpread(trial(days), sidesOf(trial(days)))).toEqual({
      first: '2024-06-01',
      last: '2024-09-01',
      days: 92,
      walls: 3,
      withoutDay: [],
    });
  });

  it('counts a treated wall without a day like an untreated one, and all from the before window where none is known', () => {
    const known = trial({ T1: '2024-06-01', T2: '2024-06-02' });
    expect(startsOf(known).T3).toBe('2024-06-02');
    expect(treatmentSpread(known, sidesOf(known))?.withoutDay).toEqual(['T3']);
    const none = trial({});
    expect(new Set(Object.values(startsOf(none)))).toEqual(new Set(['2024-05-31']));
    expect(treatmentSpread(none, sidesOf(none))).toBeUndefined();
  });
});

describe('dryingFactsBlocks(facts, opinion), dryingFactsJson(facts)', () => {
  it('prints days, wait and evaporation of every arm with their marks', () => {
    const words = wordsOf(quick([-9.4, -9.4, 0, 0], 28, { climate: air('yard') }));
    expect(words).toContain('lie 27 days after the treatment');
    expect(words).toContain('26 days at the least');
    expect(words).toContain('The wait is 104 days');
    expect(words).toContain(
      '2 of 2 treated walls were read before the wait was over, none of them before the least time',
    );
    expect(words).toMatch(/\| treated \| 2 \| 28 \| 52\.7 \| 1\.88 \| 1\.88 \| 1\.37 \| 2 \|/);
    expect(words).toContain('The walls of treated lost more than the air could take');
    for (const mark of ['from memory', 'our convention', 'winter air indoors']) expect(words).toContain(mark);
    const calm = wordsOf(quick([-1, -1, 0, 0], 110));
    expect(calm).toContain('Every treated wall was read after its wait was over');
    expect(calm).toContain('1.5 mm a day and face');
    expect(calm).toContain('No wall lost more than that');
  });

  it('says why where numbers are lacking, and nothing of a wait where nobody was treated on a known day', () => {
    const trial = quick([-1, -1, 0, 0], 28);
    const index = { ...trial.protocol, outcome: { ...trial.protocol.outcome, unit: 'digits' } };
    expect(wordsOf({ ...trial, protocol: index }).match(/is not computed, because/g)).toHaveLength(2);
    const undated = trial.walls.map(({ treatedOn: _, ...wall }) => wall);
    expect(wordsOf({ ...trial, walls: undated })).not.toContain('Time enough to dry');
  });

  it('puts null in opinion.json where nothing is known', () => {
    const { trial, readings, sides } = readOf(quick([-1, -1, 0, 0], 28));
    const json = dryingFactsJson(dryingFacts(trial, readings, sides));
    expect(json).toMatchObject({
      wait: { tooEarly: 2, worst: 'T1', reason: null },
      treatments: { days: 0 },
      air: { cover: 'none', arms: null, ratio: null, unlike: null },
    });
  });
});
