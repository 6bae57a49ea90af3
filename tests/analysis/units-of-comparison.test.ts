import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  clusterRobustDifference,
  comparisonDesign,
  designOfStations,
  leaveOneOut,
  mixedModel,
  primaryDifference,
  stationChanges,
  type UnitsOfComparison,
  unitsOfComparison,
  wallChanges,
} from '../../src/analysis/index.js';
import { moistureReadings } from '../../src/moisture/index.js';
import { formOpinion } from '../../src/opinion/index.js';
import { mean, normalDraws, randomStream, welch } from '../../src/statistics/index.js';
import type { AllocationUnit, Trial, Wall } from '../../src/trial/index.js';
import '../helpers/property-seed.js';
import { madeTrial, soundProtocol } from '../helpers/made-trial.js';
import { ofSweep } from '../helpers/sweep.js';

type Row = Pick<Wall, 'wall' | 'arm'> &
  Partial<Pick<Wall, 'site' | 'block' | 'neighbours'>> & { readonly change?: number };

function trialOf(rows: readonly Row[], unit?: AllocationUnit): Trial {
  const made = madeTrial(
    rows.map(({ wall, arm, change = 0 }, at) => ({ wall, arm, before: 8 + 0.1 * at, after: 8 + 0.1 * at + change })),
  );
  const allocation = { method: 'randomised' as const, by: '', ...(unit === undefined ? {} : { unit }) };
  const walls = rows.map(({ change: _, ...row }, at): Wall => ({ ...row, origin: made.walls[at]!.origin }));
  return { ...made, walls, protocol: { ...soundProtocol, allocation } };
}

function unitsOf(trial: Trial): UnitsOfComparison {
  const { stations } = stationChanges(trial, moistureReadings(trial));
  return unitsOfComparison(trial, wallChanges(trial, stations).walls);
}

/** `T1:A` is wall T1 at site A; T is treated, U untreated. */
function rowsOf(text: string, key: 'site' | 'block' = 'site'): Row[] {
  return text.split(' ').map((word, at) => {
    const [wall = '', place] = word.split(':');
    const arm = wall.startsWith('T') ? 'treated' : 'sham';
    return { wall, arm, change: -((at * at) % 7), ...(place === undefined ? {} : { [key]: place }) };
  });
}

const members = (trial: Trial) => Object.fromEntries(unitsOf(trial).members);

describe('unitsOfComparison', () => {
  it('takes sites where every site with several walls lies on one side, each by the mean over its walls', () => {
    const trial = trialOf(rowsOf('T1:A T2:A T3:B U1:C U2:C'));
    const { kind, units, isStated } = unitsOf(trial);
    expect([kind, isStated]).toEqual(['site', false]);
    expect(members(trial)).toEqual({ A: ['T1', 'T2'], B: ['T3'], C: ['U1', 'U2'] });
    // Changes by place in the row: 0, −1, −4, −2, −2.
    expect(units.map(({ wall, side, change }) => [wall, side, change])).toEqual([
      ['A', 'treated', -0.5],
      ['B', 'treated', -4],
      ['C', 'untreated', -2],
    ]);
    expect(units[0]).toMatchObject({ before: 8.05, after: 7.55, stations: 2, unit: { kind: 'site' } });
  });

  it.each([
    ['no site with several walls', 'T1:A T2:B U1:C U2:D'],
    ['a site with both sides', 'T1:A T2:A U1:B U2:B T3:C U3:C'],
    ['no sites', 'T1 T2 U1 U2'],
    ['one side only', 'T1:A T2:A T3:B T4:B'],
  ])('takes walls with %s', (_, rows) => {
    const { kind, units } = unitsOf(trialOf(rowsOf(rows)));
    expect(kind).toBe('wall');
    expect(units.every(({ unit }) => unit === undefined)).toBe(true);
  });

  it('takes what the plan states: walls at whole sites, sites where each has one wall', () => {
    expect(unitsOf(trialOf(rowsOf('T1:A T2:A U1:C U2:C'), 'wall'))).toMatchObject({ kind: 'wall', isStated: true });
    expect(unitsOf(trialOf(rowsOf('T1:A T2:B U1:C U2:D'), 'site'))).toMatchObject({ kind: 'site', isStated: true });
  });

  it('gives a site the block that its walls have in common, and none where each block is one site', () => {
    const inBlocks = (blocks: readonly string[]) =>
      trialOf(
        rowsOf('T1:A T2:A U1:B U2:B T3:C U3:D').map((row, at) => ({ ...row, block: blocks[at]! })),
        'site',
      );
    const blocksOf = (trial: Trial) => unitsOf(trial).units.map(({ block }) => block);
    expect(blocksOf(inBlocks(['1', '1', '1', '1', '2', '2']))).toEqual(['1', '1', '2', '2']);
    expect(blocksOf(inBlocks(['1', '3', '1', '1', '2', '2']))).toEqual(['', '1', '2', '2']);
    expect(blocksOf(inBlocks(['a', 'a', 'b', 'b', 'c', 'd']))).toEqual(['', '', '', '']);
  });

  it('takes blocks where none holds both sides and some hold several walls, without blocks', () => {
    const trial = trialOf(rowsOf('T1:A T2:A T3:B U1:C U2:C U3:D', 'block'));
    expect(unitsOf(trial).kind).toBe('block');
    expect(unitsOf(trial).units.map(({ wall, block }) => [wall, block])).toEqual([
      ['A', ''],
      ['B', ''],
      ['C', ''],
      ['D', ''],
    ]);
    expect(unitsOf(trialOf(rowsOf('T1:A T2:A T3:B U1:C U2:C U3:B', 'block'))).kind).toBe('wall');
    // Walls alone in their blocks are no houses: which block is which arm cannot be told.
    expect(unitsOf(trialOf(rowsOf('T1:A T2:B U1:C U2:D', 'block'))).kind).toBe('wall');
  });

  it('takes a house that is site and block alike by its mean, whichever name it goes by', () => {
    const rows = rowsOf('T1:A T2:A T3:B T4:B U1:C U2:C U3:D U4:D');
    const both = unitsOf(trialOf(rows.map((row) => ({ ...row, block: row.site! }))));
    const bySite = unitsOf(trialOf(rows));
    expect(both.units.map(({ change }) => change)).toEqual(bySite.units.map(({ change }) => change));
    expect(comparisonDesign(both.units).design.kind).toBe('complete');
    // Blocks of several such sites on one side are what was allocated.
    const towns = rows.map((row) => ({ ...row, block: 'AB'.includes(row.site!) ? 'north' : 'south' }));
    expect(unitsOf(trialOf(towns))).toMatchObject({ kind: 'block', units: [{ wall: 'north' }, { wall: 'south' }] });
  });

  it('takes strips of one wall that are linked on one side as one stretch, and no others', () => {
    const strips = (links: Readonly<Record<string, readonly string[]>>, text = 'T1 T2 T3 U1 U2 U3') =>
      trialOf(rowsOf(text).map((row) => ({ ...row, ...(links[row.wall] && { neighbours: links[row.wall]! }) })));
    const linked = strips({ T1: ['T2'], T3: ['T2', 'U1'], U1: ['U2'], U3: ['T1'] });
    expect(unitsOf(linked).kind).toBe('strip');
    expect(members(linked)).toEqual({ 'T1 + T2 + T3': ['T1', 'T2', 'T3'], 'U1 + U2': ['U1', 'U2'], U3: ['U3'] });
    expect(unitsOf(strips({ T1: ['U1'], T2: ['U1', 'U2'] })).kind).toBe('wall');
    expect(unitsOf(strips({ T1: ['T2'] }, 'T1:A T2:B T3:A U1:A U2:B U3:B')).kind).toBe('wall');
    expect(members(strips({ T1: ['T2'] }, 'T1:A T2:A T3:B U1:A U2:B U3:B'))).toHaveProperty('T1 + T2');
    const stated = {
      ...linked,
      protocol: { ...linked.protocol, allocation: { ...linked.protocol.allocation, unit: 'wall' as const } },
    };
    expect(unitsOf(stated).kind).toBe('wall');
  });

  it('decides by what was allotted, so that a lost wall does not turn sites into walls', () => {
    const trial = trialOf(rowsOf('T1:A T2:A T3:B U1:C U2:D'));
    const lost = { ...trial, readings: trial.readings.filter(({ wall }) => wall !== 'T2') };
    expect(members(lost)).toEqual({ A: ['T1'], B: ['T3'], C: ['U1'], D: ['U2'] });
    const none = { ...trial, readings: trial.readings.filter(({ wall }) => !['T1', 'T2'].includes(wall)) };
    expect(unitsOf(none).allotted.map(({ wall }) => wall)).toEqual(['A', 'B', 'C', 'D']);
    expect(unitsOf(none).units.map(({ wall }) => wall)).toEqual(['B', 'C', 'D']);
  });

  it('keeps a site and a wall of the same name apart', () => {
    const trial = trialOf([...rowsOf('T1:T9 T2:T9 U1:C U2:C'), { wall: 'T9', arm: 'treated' }]);
    expect(Object.keys(members(trial))).toEqual(['T9 (T1, T2)', 'C', 'T9 (T9)']);
  });

  it('gives the answer of walls to the digit where each site has one wall, property', () => {
    fc.assert(
      fc.property(fc.array(fc.double({ min: -5, max: 5, noNaN: true }), { minLength: 6, maxLength: 12 }), (changes) => {
        const rows = changes.map((change, at): Row => {
          return { wall: `W${at}`, arm: at % 2 === 0 ? 'treated' : 'sham', site: `S${at}`, change };
        });
        const answer = (unit: AllocationUnit) => {
          const primary = primaryDifference(comparisonDesign(unitsOf(trialOf(rows, unit)).units).design, {
            level: 0.95,
            unit: '% by mass',
          });
          if (primary.kind === 'not-estimated') return primary.difference;
          const { estimate, interval, standardError, degreesOfFreedom, pValue, walls } = primary.estimate;
          return { estimate, interval, standardError, degreesOfFreedom, pValue, walls };
        };
        expect(answer('site')).toEqual(answer('wall'));
      }),
    );
  });

  it('never depends on the order of rows, property', () => {
    const rows = rowsOf('T1:A T2:A T3:B T4:B T5:E U1:C U2:C U3:D U4:D U5:F').map((row, at) => ({
      ...row,
      change: Math.sin(3 * at),
      neighbours: at % 5 === 0 ? [] : [`${row.arm === 'treated' ? 'T' : 'U'}${at % 5}`],
    }));
    const variants = [
      rows,
      rows.map(({ site: _, ...row }) => row),
      rows.map(({ site, ...row }) => ({ ...row, block: site! })),
    ];
    for (const variant of variants) {
      const trial = trialOf(variant);
      const summary = (from: Trial) => {
        const units = unitsOf(from);
        const primary = primaryDifference(comparisonDesign(units.units).design, { level: 0.95, unit: '%' });
        const sorted = [...units.members].map(([name, walls]) => `${name}: ${walls.toSorted()}`).toSorted();
        return { kind: units.kind, sorted, primary };
      };
      const expected = summary(trial);
      fc.assert(
        fc.property(
          fc.shuffledSubarray([...trial.walls], { minLength: 10 }),
          fc.shuffledSubarray([...trial.readings], { minLength: 20 }),
          (walls, readings) => {
            const found = summary({ ...trial, walls, readings });
            expect([found.kind, found.sorted, found.primary.kind]).toEqual([
              expected.kind,
              expected.sorted,
              expected.primary.kind,
            ]);
            if (found.primary.kind !== 'estimated' || expected.primary.kind !== 'estimated') return;
            expect(found.primary.estimate.estimate).toBeCloseTo(expected.primary.estimate.estimate, 12);
            expect(found.primary.estimate.interval.lower).toBeCloseTo(expected.primary.estimate.interval.lower, 12);
          },
        ),
        { numRuns: 30 },
      );
    }
  });
});

/** Houses of five walls with two stations each: a house moves its walls alike. */
function housesTrial(seed: number, houses = 8, unit?: AllocationUnit): Trial {
  const draws = normalDraws(randomStream(seed), houses * 17);
  let at = 0;
  const next = () => draws[at++]!;
  const rows: Row[] = [];
  const stationRows: { wall: string; station: string; change: number }[] = [];
  for (let house = 0; house < houses; house += 1) {
    const ofHouse = Math.SQRT1_2 * next();
    for (let one = 0; one < 5; one += 1) {
      const wall = `W${house}-${one}`;
      const change = ofHouse + Math.SQRT1_2 * next();
      rows.push({ wall, arm: house % 2 === 0 ? 'treated' : 'sham', site: `H${house}` });
      for (const station of ['low', 'high']) stationRows.push({ wall, station, change: change + 0.2 * next() });
    }
  }
  const trial = trialOf(rows, unit);
  const readings = stationRows.flatMap(({ wall, station, change }, row) =>
    [
      ['2024-04-10', 8],
      ['2025-04-10', 8 + change],
    ].map(([date, value]) => ({
      ...trial.readings[0]!,
      ...{ date: `${date}`, wall, station, value: { kind: 'measured' as const, value: Number(value) } },
      origin: { file: 'readings.csv', row: row + 2 },
    })),
  );
  return { ...trial, readings };
}

describe('houses of several walls', () => {
  const options = { level: 0.95, unit: '% by mass' };
  const trial = housesTrial(7);
  const { stations } = stationChanges(trial, moistureReadings(trial));
  const { design } = designOfStations(trial, stations);
  const changes = wallChanges(trial, stations).walls;

  it('are compared by Welch’s interval of the house means', () => {
    const meansOn = (first: number) =>
      [first, first + 2, first + 4, first + 6].map((house) =>
        mean(changes.filter(({ wall }) => wall.startsWith(`W${house}-`)).map(({ change }) => change)),
      );
    const expected = welch(meansOn(0), meansOn(1), { level: 0.95 });
    const primary = primaryDifference(design, options);
    if (primary.kind !== 'estimated') throw new Error(primary.reason.code);
    expect(primary.estimate.estimate).toBeCloseTo(expected.estimate, 12);
    expect(primary.estimate.interval.lower).toBeCloseTo(expected.interval.lower, 12);
    expect(primary.estimate).toMatchObject({
      walls: { treated: 4, untreated: 4 },
      method: { compared: { units: 'site' } },
    });
  });

  it('are the clusters of CR2 and a level of the mixed model, which then agrees with the means of equal houses', () => {
    const robust = clusterRobustDifference(design, stations, options);
    const mixed = mixedModel(design, stations, options);
    const primary = primaryDifference(design, options);
    if (robust.kind !== 'estimated' || mixed.kind !== 'estimated' || primary.kind !== 'estimated')
      throw new Error('not estimated');
    // As many walls in each house and stations in each wall: all weigh alike, and no method has more than the houses.
    for (const { estimate } of [robust, mixed]) {
      expect(estimate.estimate).toBeCloseTo(primary.estimate.estimate, 8);
      expect(estimate.degreesOfFreedom).toBeCloseTo(6, 6);
      expect(estimate.walls).toEqual({ treated: 4, untreated: 4 });
    }
    expect(robust.estimate.method).toMatchObject({ cluster: 'unit', compared: { units: 'site' } });
    expect(mixed.estimate.method).toMatchObject({ hasWallsInside: true, compared: { units: 'site' } });
  });

  it('are left out one by one', () => {
    const left = leaveOneOut(trial, moistureReadings(trial), design);
    expect(left.filter(({ of }) => of === 'site').map(({ left: name }) => name)).toEqual(
      [0, 1, 2, 3, 4, 5, 6, 7].map((house) => `H${house}`),
    );
  });

  it('stand in the opinion as units, its walls remaining walls', () => {
    const opinion = formOpinion(housesTrial(7));
    expect(opinion.walls).toHaveLength(40);
    expect(opinion.units).toMatchObject({ kind: 'site', isStated: false });
    expect(opinion.units.members.get('H0')).toHaveLength(5);
    expect(opinion.primary).toMatchObject({ estimate: { walls: { treated: 4, untreated: 4 } } });
    expect(opinion.judging?.missing).toBeUndefined();
    expect(formOpinion(housesTrial(7, 8, 'wall')).units).toMatchObject({ kind: 'wall', isStated: true });
  });

  const trials = ofSweep(500, 250);
  it(`keep 5 % of false alarms in ${trials} simulated trials of 4 + 4, where their walls as units give 25 %`, () => {
    const alarmsOf = (unit?: AllocationUnit) => {
      let alarms = 0;
      for (let seed = 1; seed <= trials; seed += 1) {
        const drawn = housesTrial(seed, 8, unit);
        const found = stationChanges(drawn, moistureReadings(drawn));
        const primary = primaryDifference(designOfStations(drawn, found.stations).design, options);
        if (primary.kind !== 'estimated') throw new Error(primary.reason.code);
        if (primary.estimate.pValue! < 0.05) alarms += 1;
      }
      return alarms / trials;
    };
    // Three standard errors of a share in so many are allowed.
    const allowed = (share: number) => 3 * Math.sqrt((share * (1 - share)) / trials);
    const ofHouses = alarmsOf();
    expect(ofHouses).toBeGreaterThan(0.05 - allowed(0.05));
    expect(ofHouses).toBeLessThan(0.05 + allowed(0.05));
    expect(alarmsOf('wall')).toBeGreaterThan(0.25 - allowed(0.25));
  }, 240_000);
});
