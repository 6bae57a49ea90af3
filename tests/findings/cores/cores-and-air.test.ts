import { beforeAll, describe, expect, it } from 'vitest';
import { airOfTrial } from '../../../src/findings/air/air-of-trial.js';
import { coresOfTrial } from '../../../src/findings/cores/cores-of-trial.js';
import { potentialsOfTrial } from '../../../src/findings/potentials/potentials-of-trial.js';
import { formOpinion, type Opinion, type Trial } from '../../../src/index.js';
import { airBlocks } from '../../../src/report/sections/air-blocks.js';
import { reusedBlocks } from '../../../src/report/sections/core-blocks.js';
import { airSection, coresSection } from '../../../src/report/sections/cores-section.js';
import { hygroscopicBlocks } from '../../../src/report/sections/hygroscopic-blocks.js';
import { potentialBlocks } from '../../../src/report/sections/potential-blocks.js';
import { opinionJson } from '../../../src/report/writers/opinion-json.js';
import type { Core } from '../../../src/trial/index.js';
import { bundledOpinion, bundledTrial } from '../../helpers/bundled-opinions.js';
import { blocksInWords, coreTrial, origin } from '../../helpers/core-trial.js';
import { expectRelative } from '../../helpers/expect-relative.js';
import { madeTrial, soundProtocol, wallsWithChanges } from '../../helpers/made-trial.js';

function wordsOf(opinion: Opinion): string {
  return JSON.stringify(
    coresSection(opinion)?.blocks.map((block) => (block.kind === 'figure' ? block.caption : block)) ?? [],
  );
}

describe('coresOfTrial(trial, sides) on damp-cellar-walls, of which the truth is known', () => {
  let opinion: Opinion;
  beforeAll(async () => {
    opinion = await bundledOpinion('damp-cellar-walls');
  });
  const inArm = <Named extends { readonly arm: string }>(all: readonly Named[] | undefined, arm: string): Named => {
    const found = all?.find((each) => each.arm === arm);
    if (found === undefined) throw new Error(`nothing of ${arm}`);
    return found;
  };

  it('finds the fronts at 750 mm, and at 450 mm after the slot', () => {
    const slot = inArm(opinion.cores?.fronts, 'slot');
    const filled = inArm(opinion.cores?.fronts, 'filled slot');
    for (const [front, truth] of [
      [slot.before, 750],
      [slot.after, 450],
      [slot.change, -300],
      [filled.change, 0],
    ] as const) {
      expect(front?.walls).toBeGreaterThanOrEqual(7);
      expect(front?.interval?.lower).toBeLessThan(truth);
      expect(front?.interval?.upper).toBeGreaterThan(truth);
    }
  });

  it('stores the water that the mean moisture, density and thickness give', () => {
    const walls = opinion.walls.filter(({ arm }) => arm === 'slot');
    const { means } = inArm(opinion.cores?.water, 'slot');
    // Between one wall of 330 mm and one of 440 mm at 1700 kg/m³, with mean moistures of 5 to 8 %.
    expect(means?.before.walls).toBe(walls.length);
    expect(means?.before.mean).toBeGreaterThan(1700 * 0.33 * 0.05);
    expect(means?.before.mean).toBeLessThan(1700 * 0.44 * 0.08);
    expect(means?.change.mean).toBeCloseTo((means?.after.mean ?? 0) - (means?.before.mean ?? 0), 10);
  });

  it('no core stands drier in its wall than what it takes up in air like that of the cellars', async () => {
    const { cores, batches = [], climate } = await bundledTrial('damp-cellar-walls');
    const humidityOf = new Map(batches.map(({ batch, humidity_pct = 0 }) => [batch, humidity_pct]));
    const drilled = cores.filter(({ humid_g }) => humid_g !== undefined);
    expect(drilled).toHaveLength(960);
    for (const { batch = '', wet_g = 0, dry_g = 0, humid_g = 0 } of drilled) {
      // At 80 % a core takes up 1.6 times what it does at 75 %; each mass is written to 0.01 g.
      const inCellar_g = (humidityOf.get(batch) === 80 ? 1 : 1.6) * (humid_g - dry_g);
      expect(wet_g - dry_g).toBeGreaterThan(inCellar_g - 0.025);
    }
    const shown = climate.flatMap(({ relative_humidity_pct }) => relative_humidity_pct ?? []);
    expect(shown.reduce((sum, one) => sum + one, 0) / shown.length).toBeCloseTo(80, 0);
  });

  it('finds the salts half way up the slotted walls only, refuses the batch of another humidity, and says what more humid air means', () => {
    const hygroscopic = opinion.cores?.hygroscopic;
    expect(hygroscopic?.condition).toEqual({ setpoint_rh_pct: 75, temperature_c: 20 });
    expect(hygroscopic?.refused).toEqual([{ reason: { code: 'batch-air-unlike' }, cores: 160 }]);
    expect(hygroscopic?.cores).toBe(800);
    expect(hygroscopic?.negative).toBe(0);
    expect(hygroscopic?.salts?.near.map(({ salt }) => salt)).toEqual(['sodium nitrate', 'sodium chloride']);
    expect(hygroscopic?.air?.mean_pct).toBeCloseTo(80, 0);
    expect(hygroscopic?.air?.drierThanAirAllows).toBe(0);
    const slot = inArm(hygroscopic?.profiles, 'slot');
    const filled = inArm(hygroscopic?.profiles, 'filled slot');
    expect(slot.pattern?.hygroscopic).toEqual({ shape: 'peaked' });
    expect(slot.pattern?.excess).toEqual({ shape: 'falling' });
    expect(filled.pattern).toMatchObject({ hygroscopic: { shape: 'flat' }, excess: { shape: 'falling' } });
    const at700 = slot.heights.find(({ height_mm }) => height_mm === 700);
    expect(at700?.hygroscopic_pct).toBeCloseTo(1.8, 1);
  });

  it('counts the cores put back, and corrects those that were dried again by the grains they lost', () => {
    const reused = opinion.cores?.reused;
    expect(reused).toMatchObject({ cores: 6, walls: 6, visits: { fewest: 6, most: 6 } });
    expect(reused?.hidden?.cores).toBe(4);
    // Five handlings of 0.03 g from a core of some 82 g, at some 5 % of moisture.
    expect(reused?.corrected?.largest_pp).toBeGreaterThan(0.17);
    expect(reused?.corrected?.largest_pp).toBeLessThan(0.21);
    expect(reused?.serial.map(({ arm }) => arm)).toEqual(['slot', 'filled slot']);
  });

  it('groups the batches, maps both arms, and says all of it in words and in opinion.json', () => {
    expect(opinion.cores?.batches?.map(({ batches }) => batches)).toEqual([['B1', 'B2', 'B3', 'B5', 'B6'], ['B4']]);
    expect(opinion.cores?.maps?.map(({ before, change }) => [before.length, change.length])).toEqual([
      [10, 10],
      [10, 10],
    ]);
    const slot = inArm(opinion.cores?.maps, 'slot');
    const filled = inArm(opinion.cores?.maps, 'filled slot');
    // At 700 mm 8.11 % before, 0.4 less at 40 mm deep and 0.4 more at 150 mm. Afterwards water from below would leave 2.13 and 2.93 %, with a
    // standard deviation of 0.93; salts hold no less than 2.88 %, and the means of what is larger are 2.99 and 3.27 %.
    const expected = new Map([
      [40, 2.99 - 7.71],
      [150, 3.27 - 8.51],
    ]);
    const found = slot.change.filter(({ height_mm }) => height_mm === 700);
    expect(found.map(({ depth_mm }) => depth_mm)).toEqual([40, 150]);
    for (const { depth_mm, value } of found) {
      expect(Math.abs(value - (expected.get(depth_mm ?? 0) ?? 0))).toBeLessThan(0.6);
    }
    for (const { value } of filled.change) expect(Math.abs(value + 0.4)).toBeLessThan(0.4);
    const words = wordsOf(opinion);
    for (const part of [
      'The rules by which a pattern is named are our own convention',
      'within half a point of humidity and 2 °C (our convention)',
      'fewer than five heights (our convention)',
      'Cores that were put back',
      'sodium chloride at 75.5 %',
      'some of the excess is no liquid water',
      'kg/m²',
      'damp front',
      'Where in the wall',
      'the usual rule (ISO 12570, from memory)',
      'not a diagnosis',
    ])
      expect(words).toContain(part);
    const json = JSON.parse(opinionJson(opinion));
    expect(json.cores.fronts[0].change.mean).toBeCloseTo(
      inArm(opinion.cores?.fronts, 'slot').change?.mean ?? Number.NaN,
      8,
    );
    expect(json.air).toHaveLength(4);
  });
});

describe('coresOfTrial(trial, sides) says nothing that the folder does not state', () => {
  const names = madeTrial(wallsWithChanges([-3], [0])).walls.map(({ wall }) => wall);
  const own = new Map(names.map((name, at) => [name, at === 0 ? ('treated' as const) : ('untreated' as const)]));
  const wall = names[0] ?? '';

  it('nothing of plain cores', () => {
    expect(coresOfTrial(coreTrial([{ wall, wet_g: 55, dry_g: 50 }]), own)).toBeUndefined();
  });

  it('no excess where the humidity of the batch is not stated', () => {
    const part = coresOfTrial(coreTrial([{ wall, wet_g: 55, dry_g: 50, humid_g: 51 }]), own);
    expect(part?.hygroscopic).toMatchObject({ cores: 0, negative: 0, profiles: [] });
    expect(part?.hygroscopic?.refused).toEqual([{ reason: { code: 'batch-air-unstated' }, cores: 1 }]);
  });

  it('no excess of a batch in saturated air, and a saturated batch never stands for the others', () => {
    const batches = [
      { batch: 'B1', humidity_pct: 101.2, humidTemperature_c: 20, origin },
      { batch: 'B2', humidity_pct: 75, humidTemperature_c: 20, origin },
      { batch: 'B3', humidity_pct: 99.9, humidTemperature_c: 20, origin },
      { batch: 'B4', humidity_pct: 100, humidTemperature_c: 20, origin },
    ];
    const humid = (batch: string) => ({ wall, wet_g: 55, dry_g: 50, humid_g: 51, batch });
    const of = (...names: string[]) => coresOfTrial(coreTrial(names.map(humid), { batches }), own)?.hygroscopic;
    const saturated = { code: 'batch-air-saturated' };
    expect(of('B1', 'B1', 'B2')).toMatchObject({
      ...{ cores: 1, condition: { setpoint_rh_pct: 75 }, refused: [{ reason: saturated, cores: 2 }] },
    });
    expect(of('B1')).toMatchObject({ cores: 0, profiles: [], refused: [{ reason: saturated, cores: 1 }] });
    expect(of('B4')).toMatchObject({ cores: 0, refused: [{ reason: saturated, cores: 1 }] });
    expect(of('B3')).toMatchObject({ cores: 1, refused: [] });
  });

  it('a core clearly drier than the chamber in a wall of more humid air is named; one within two standard uncertainties is not', () => {
    const batches = [{ batch: 'B1', humidity_pct: 75, humidTemperature_c: 45, origin }];
    const climate = (relative_humidity_pct: number) => [
      { time: '2024-04-01', place: 'yard', temperature_c: 12, relative_humidity_pct, origin },
    ];
    const of = (wet_g: number, humidity_pct: number) =>
      coresOfTrial(
        coreTrial([{ wall, wet_g, dry_g: 50, humid_g: 51, batch: 'B1' }], { batches, climate: climate(humidity_pct) }),
        own,
      )?.hygroscopic;
    // A display of 0.01 g: 2 · 0.01/√12 · √2 g is 0.00816 g.
    expect(of(50.991, 80)?.air).toEqual({ mean_pct: 80, drierThanAirAllows: 1 });
    expect(of(50.992, 80)?.air).toEqual({ mean_pct: 80, drierThanAirAllows: 0 });
    expect(of(50.9, 75)?.air).toEqual({ mean_pct: 75, drierThanAirAllows: 0 });
    const words = (wet_g: number, humidity_pct: number) => blocksInWords(hygroscopicBlocks(of(wet_g, humidity_pct)));
    expect(words(50.9, 80)).toContain(
      'Yet 1 core held less than in the chamber by more than 2 standard uncertainties (our convention). One of the two is wrong',
    );
    expect(words(52, 80)).toContain('more humid, 80 % on average');
    expect(words(52, 80)).not.toContain('One of the two is wrong');
    expect(words(52, 75)).not.toContain('more humid');
    // At 45 °C nothing is known of four salts, and sodium chloride dissolves at 74.53 %.
    expect(words(52, 75)).toContain(
      'potassium carbonate, calcium nitrate, ammonium nitrate and magnesium sulfate dissolve',
    );
    expect(words(52, 75)).toContain('sodium chloride at 74.5 % (Greenspan 1977');
    expect(words(52, 75)).toContain('within 2 points of that humidity (our convention)');
    expect(of(52, 75)?.salts?.notKnown).toHaveLength(4);
  });

  it('new cores under an old name are not one core that went back', () => {
    const twice = (dry_g: number) =>
      coreTrial([
        { wall, sample: 'a', wet_g: 55, dry_g: 50 },
        { wall, sample: 'a', date: '2025-04-01', wet_g: dry_g + 4, dry_g },
      ]);
    expect(coresOfTrial(twice(46), own)).toBeUndefined();
    expect(coresOfTrial(twice(50), own)?.reused).toMatchObject({ cores: 1, hidden: { cores: 1 } });
    // Dried again and 1 % lighter: what its loss did is known, and hides nothing.
    expect(coresOfTrial(twice(49.5), own)?.reused).toMatchObject({ cores: 1, corrected: { cores: 1 } });
    expect(coresOfTrial(twice(49.5), own)?.reused).not.toHaveProperty('hidden');
    // (54 − 55)/50 of moisture, or 50 × (54/55 − 1) g of core.
    expectRelative(coresOfTrial(twice(50), own)?.reused?.hidden?.apparentChange_pp ?? 0, 2, 1e-12);
    expectRelative(coresOfTrial(twice(50), own)?.reused?.hidden?.explainedBy_g ?? 0, 50 / 55, 1e-12);
  });

  it('four visits of one core at 12, 11, 9 and 8 % hang together by 0.3, and tell its mean as 2.57 independent ones, worked by hand', () => {
    const visits = ['2024-04-01', '2024-07-01', '2024-10-01', '2025-04-01'];
    const cores = [56, 55.5, 54.5, 54].map((wet_g, at) => ({ wall, sample: 'a', date: visits[at], wet_g, dry_g: 50 }));
    const part = coresOfTrial(coreTrial(cores as Partial<Core>[]), own);
    // 4 / (1 + 2 (3/4 · 0.3 + 2/4 · 0.09 + 1/4 · 0.027))
    expect(part?.reused?.serial).toMatchObject([{ visits: 4, lagOne: expect.closeTo(0.3, 10) }]);
    expectRelative(part?.reused?.serial[0]?.independentVisits ?? 0, 4 / 1.5535, 1e-10);
    expect(blocksInWords(reusedBlocks(part?.reused))).toMatch(
      /1 core at 4 visits, which tell .* than 2\.6 independent ones/,
    );
  });

  it('speaks of one core in the singular, and of no negative excess where there is none', () => {
    const batches = [{ batch: 'B1', humidity_pct: 75, humidTemperature_c: 20, origin }];
    const humid = { wall, wet_g: 55, dry_g: 50, humid_g: 51, batch: 'B1' };
    const words = (cores: readonly Partial<Core>[]) =>
      blocksInWords(hygroscopicBlocks(coresOfTrial(coreTrial(cores, { batches }), own)?.hygroscopic));
    expect(words([humid])).toContain('1 core was weighed again');
    expect(words([humid])).not.toContain('below zero');
    expect(words([{ ...humid, wet_g: 50.5 }])).toContain('below zero in 1 core,');
    expect(words([{ ...humid, batch: 'B9' }])).toContain(
      'of 1 core, because the humidity or the temperature of the batch',
    );
  });
});

describe('airOfTrial(trial, sides)', () => {
  const at = (time: string, place: string, temperature_c: number, relative_humidity_pct: number) => ({
    ...{ time, place, temperature_c, relative_humidity_pct },
    origin: { file: 'climate.csv', row: 2 },
  });
  const base = madeTrial(wallsWithChanges([-3], [0]));
  const walls = base.walls.map((each, index) => ({ ...each, site: index === 0 ? 'room a' : 'room b' }));
  const own = new Map(
    walls.map(({ wall }, index) => [wall, index === 0 ? ('treated' as const) : ('untreated' as const)]),
  );

  it('air of 20 °C and 50 %: 1166 Pa, dew point 9.26 °C, 8.62 g/m³', () => {
    const climate = [
      at('2024-04-01', 'room a', 20, 50),
      at('2024-04-08', 'room a', 20, 50),
      at('2024-04-08', 'yard', 10, 80),
    ];
    const air = airOfTrial({ ...base, walls, climate }, own);
    expect(air).toHaveLength(1);
    expect(air[0]).toMatchObject({ place: 'treated', window: 'before', places: 1, readings: 2 });
    expect(air[0]?.vapourPressure_pa).toBeCloseTo(1166.3, 1);
    expect(air[0]?.dewPoint_c).toBeCloseTo(9.255, 2);
    expect(air[0]?.vapourDensity_g_m3).toBeCloseTo(8.621, 2);
    expect(air[0]?.evaporation_pa).toBeCloseTo(1166.3, 1);
  });

  it('air beside both kinds of walls, and air beside none, are distinguished', () => {
    const shared = base.walls.map((each) => ({ ...each, site: 'nave' }));
    const climate = ['nave', 'yard'].flatMap((place) => [
      at('2024-04-01', place, 20, 50),
      at('2024-04-08', place, 20, 50),
      at('2025-04-01', place, 10, 80),
      at('2025-04-08', place, 10, 80),
    ]);
    const air = airOfTrial({ ...base, walls: shared, climate }, own);
    expect(air.map(({ place, window }) => [place, window])).toEqual([
      ['both', 'before'],
      ['both', 'after'],
      ['elsewhere', 'before'],
      ['elsewhere', 'after'],
    ]);
    expect(air[1]?.dewPoint_c).toBeCloseTo(6.706, 2);
    const words = blocksInWords(airBlocks(air));
    expect(words).toContain('Both: ');
    expect(words).toContain('Elsewhere: ');
    expect(words).not.toContain('beside treated and');
  });

  it('the section is headed by what is there', () => {
    const climate = [at('2024-04-01', 'room a', 20, 50), at('2024-04-08', 'room a', 20, 50)];
    const headingsOf = (trial: Trial) => {
      const opinion = formOpinion(trial);
      return [coresSection(opinion)?.heading, airSection(opinion)?.heading];
    };
    expect(headingsOf(base)).toEqual([undefined, undefined]);
    expect(headingsOf({ ...base, walls, climate })).toEqual([undefined, 'What the air says']);
    const sample = { wall: base.walls[0]?.wall ?? '', sample: 'a', dry_g: 50 };
    const twice = coreTrial([
      { ...sample, wet_g: 55 },
      { ...sample, date: '2025-04-01', wet_g: 54 },
    ]);
    expect(headingsOf(twice)).toEqual(['What the cores say', undefined]);
    expect(headingsOf({ ...twice, walls, climate })).toEqual(['What the cores say', 'What the air says']);
  });

  it('a reading without humidity or at absurd cold counts for nothing', () => {
    const climate = [at('2024-04-01', 'room a', 20, 0), at('2024-04-08', 'room a', -80, 50)];
    expect(airOfTrial({ ...base, walls, climate }, own)).toEqual([]);
  });
});

describe('potentialsOfTrial(trial, sides)', () => {
  const pins = {
    instrument: 'pins',
    kind: 'potential' as const,
    electrode: 'steel pin',
    reference: 'pin in the floor',
    polarity: 'point-minus-reference' as const,
  };
  const base = madeTrial(wallsWithChanges([-3], [0]));
  const [treated = '', untreated = ''] = base.walls.map(({ wall }) => wall);
  const own = new Map([
    [treated, 'treated' as const],
    [untreated, 'untreated' as const],
  ]);
  const days = ['2024-04-01', '2024-06-01', '2024-08-01'];
  const reading = (wall: string, date: string, station: string, shown: number, lead: 'as-stated' | 'reversed') => ({
    ...{ date, wall, station, instrument: 'pins', lead },
    value: { kind: 'measured' as const, value: shown },
    origin: { file: 'readings.csv', row: 2 },
  });
  /** The meter adds 2 mV whichever way the leads are. */
  const both = (wall: string, date: string, voltage: number) =>
    ['a', 'b'].flatMap((station, index) => {
      const own = voltage + (index === 0 ? 1 : -1);
      return [reading(wall, date, station, own + 2, 'as-stated'), reading(wall, date, station, -own + 2, 'reversed')];
    });
  const shifted = ({ value }: ReturnType<typeof reading>, by: number) => ({ ...value, value: value.value + by });
  const readings = [
    ...days.flatMap((day, visit) => both(treated, day, visit === 0 ? 40 : -40)),
    ...days.flatMap((day) => both(untreated, day, 40)),
  ];
  const trial = {
    ...base,
    readings,
    protocol: { ...soundProtocol, instruments: [...soundProtocol.instruments, pins] },
  };

  it('finds what the meter adds, and the change of sign between its two visits', () => {
    const [facts] = potentialsOfTrial(trial, own);
    if (facts?.offset?.kind !== 'computed' || facts.signs.kind !== 'computed') throw new Error('not computed');
    expect(facts.offset.value.offset_mv).toBeCloseTo(2, 12);
    expect(facts.signs.value.walls).toEqual([
      {
        ...{ wall: treated, side: 'treated' },
        change: { kind: 'changed', from: 'positive', to: 'negative', after: days[0], by: days[1], unclearVisits: 0 },
      },
      { wall: untreated, side: 'untreated', change: { kind: 'unchanged', sign: 'positive', unclearVisits: 0 } },
    ]);
    // Two places 2 mV apart: a standard deviation of √2 mV, over √2.
    expect(facts.ofVisit_mv).toBeCloseTo(1, 12);
  });

  it('takes what the meter adds off where the leads stayed one way, and says so on the page', () => {
    // Reversed leads on the first day only: the other days show 2 mV too much.
    const few = readings.filter(({ lead, date }) => lead === 'as-stated' || date === days[0]);
    const [facts] = potentialsOfTrial({ ...trial, readings: few }, own);
    if (facts?.signs.kind !== 'computed') throw new Error('not computed');
    // Two walls, two places, two days.
    expect(facts.oneWay).toBe(8);
    // The four pairs agree to the last digit, so that the offset has no uncertainty of its own.
    expect(facts.ofVisit_mv).toBeCloseTo(1, 12);
    // A wall at 1.5 mV: with the meter's 2 mV it would read 3.5 mV and look clear of zero; 2.39 standard uncertainties are needed.
    const near = few.map((one) =>
      one.wall === untreated && one.date !== days[0] ? { ...one, value: shifted(one, -38.5) } : one,
    );
    const [close] = potentialsOfTrial({ ...trial, readings: near }, own);
    if (close?.signs.kind !== 'computed') throw new Error('not computed');
    expect(close.signs.value.walls[1]?.change).toEqual({ kind: 'unchanged', sign: 'positive', unclearVisits: 2 });
    // Offsets of 2, 3, 2 and 3 mV: 2.5 with a standard error of √(1/3)/2. Places 2 mV apart on two visits and 1 mV on four:
    // a pooled variance of (2 × 2 + 4 × 0.5)/6 = 1, over the two places.
    const uneven = few.map((one) => (one.station === 'b' ? { ...one, value: shifted(one, 1) } : one));
    const [wider] = potentialsOfTrial({ ...trial, readings: uneven }, own);
    expect(wider?.ofVisit_mv).toBeCloseTo(Math.sqrt(1 / 2 + 1 / 12), 12);
    const text = JSON.stringify(potentialBlocks(facts));
    expect(text).toContain('At 4 places and days the leads were swapped: the meter itself adds +2');
    expect(text).toContain('At 8 places and days the leads stayed one way; there it was subtracted.');
    const [paired] = potentialsOfTrial(trial, own);
    expect(paired && JSON.stringify(potentialBlocks(paired))).toContain('Every place was read both ways');
    expect(paired && JSON.stringify(potentialBlocks(paired))).toContain('Over 122 days it moved by ');
  });

  it('no sign is called clear where no wall was read at two places', () => {
    const one = { ...trial, readings: readings.filter(({ station }) => station === 'a') };
    expect(potentialsOfTrial(one, own)[0]?.signs.kind).toBe('not-computed');
  });

  it('nothing without a polarity', () => {
    const unstated = { instrument: 'pins', kind: 'potential' as const, electrode: 'pin', reference: 'pin' };
    expect(potentialsOfTrial({ ...trial, protocol: { ...soundProtocol, instruments: [unstated] } }, own)).toEqual([]);
  });
});
