import { describe, expect, it } from 'vitest';
import { comparisonDesign, randomisation, type WallChange } from '../../src/analysis/index.js';
import { type AllocationPlan, allocateWalls } from '../../src/planning/allocation/allocate-walls.js';
import { wallCodes } from '../../src/planning/allocation/wall-codes.js';
import { countAllocations } from '../../src/statistics/index.js';

const arms = (treated: number, untreated: number) =>
  [
    { arm: 'device', count: treated, side: 'treated' },
    { arm: 'sham', count: untreated, side: 'untreated' },
  ] as const;

const walls = (count: number, size = 0, before?: (at: number) => number) =>
  Array.from({ length: count }, (_, at) => ({
    wall: `W${at + 1}`,
    ...(size === 0 ? {} : { group: `G${Math.floor(at / size)}` }),
    ...(before === undefined ? {} : { before: before(at) }),
  }));

const designs: readonly (readonly [string, AllocationPlan, bigint])[] = [
  [
    'complete',
    { kind: 'complete', walls: walls(5), arms: arms(2, 3) },
    countAllocations({ kind: 'complete', treated: 2, untreated: 3 }),
  ],
  ['in pairs', { kind: 'pairs', walls: walls(8, 2), arms: arms(1, 1) }, 16n],
  ['in blocks', { kind: 'blocks', walls: walls(6, 3), arms: arms(1, 2) }, 9n],
  ['by house', { kind: 'houses', walls: walls(10, 2), arms: arms(2, 3) }, 10n],
];

const keyOf = (plan: AllocationPlan, seed: number) =>
  allocateWalls(plan, seed)
    .walls.map(({ arm }) => arm[0])
    .join('');

describe('allocateWalls', () => {
  it.each(designs)(
    '%s: makes every allocation that there is, about equally often (chi-square below its 99.99 % point)',
    (_, plan, ways) => {
      const draws = 4000;
      const counts = new Map<string, number>();
      for (let seed = 0; seed < draws; seed++) {
        const key = keyOf(plan, seed);
        counts.set(key, (counts.get(key) ?? 0) + 1);
      }
      expect(BigInt(counts.size)).toBe(ways);
      const expected = draws / counts.size;
      const square = [...counts.values()].reduce((sum, count) => sum + (count - expected) ** 2 / expected, 0);
      const df = counts.size - 1;
      expect(square).toBeLessThan(df + 3.72 * Math.sqrt(2 * df) + 10);
    },
  );

  it('keeps houses whole and pairs mixed', () => {
    const houses = allocateWalls({ kind: 'houses', walls: walls(12, 3), arms: arms(2, 2) }, 5).walls;
    for (const group of new Set(houses.map((wall) => wall.group)))
      expect(new Set(houses.filter((wall) => wall.group === group).map(({ arm }) => arm)).size).toBe(1);
    const pairs = allocateWalls({ kind: 'pairs', walls: walls(12, 2), arms: arms(1, 1) }, 5).walls;
    for (const group of new Set(pairs.map((wall) => wall.group)))
      expect(new Set(pairs.filter((wall) => wall.group === group).map(({ arm }) => arm)).size).toBe(2);
  });

  it('gives the same for the same seed', () => {
    const plan = { kind: 'complete', walls: walls(20), arms: arms(10, 10) } as const;
    expect(allocateWalls(plan, 11)).toEqual(allocateWalls(plan, 11));
    expect(keyOf(plan, 11)).not.toBe(keyOf(plan, 12));
  });

  it('under a constraint makes just the allocations that meet it, by a plain enumeration', () => {
    const before = [9, 12, 8, 11, 10, 7];
    const plan = {
      kind: 'complete',
      walls: walls(6, 0, (at) => before[at] ?? 0),
      arms: arms(3, 3),
      mostBeforeDifference: 1,
    } as const;
    const found = new Set(Array.from({ length: 600 }, (_, seed) => keyOf(plan, seed)));
    let allowed = 0;
    for (let mask = 0; mask < 64; mask++) {
      const chosen = before.filter((_, at) => mask & (1 << at));
      if (chosen.length !== 3) continue;
      const sum = chosen.reduce((one, other) => one + other, 0);
      if (Math.abs(sum - (57 - sum)) / 3 <= 1) allowed++;
    }
    expect(found.size).toBe(allowed);
    expect(allowed).toBeLessThan(20);
    const one = allocateWalls(plan, 3);
    expect(Math.abs(one.beforeDifference ?? 9)).toBeLessThanOrEqual(1);
  });

  it('under a constraint gives the randomisation test of that constraint p-values that are uniform under no effect', () => {
    const before = [9, 12, 8, 11, 10, 7, 9.5, 10.5];
    const change = [0.3, -1.1, 0.7, 1.9, -0.2, 2.4, -0.6, 1.2];
    const mostBeforeDifference = 0.8;
    const plan = {
      kind: 'complete',
      walls: walls(8, 0, (at) => before[at] ?? 0),
      arms: arms(4, 4),
      mostBeforeDifference,
    } as const;
    const pOf = (forgets: boolean) => (key: string) => {
      const units = change.map((value, at): WallChange => {
        const side = key[at] === 'd' ? 'treated' : 'untreated';
        const [first = 0, arm] = [before[at], side];
        return { wall: `W${at}`, arm, side, block: '', before: first, after: first + value, change: value, ...one };
      });
      const options = { level: 0.95, unit: '', seed: 1, allocation: 'randomised' as const };
      const { design } = comparisonDesign(units);
      const answer = randomisation(design, forgets ? options : { ...options, mostBeforeDifference });
      return answer.kind === 'estimated' ? (answer.estimate.pValue ?? 9) : 9;
    };
    const one = { stations: 1, places: 'same' as const };
    const keys = [...new Set(Array.from({ length: 1500 }, (_, seed) => keyOf(plan, seed)))];
    expect(keys.length).toBeGreaterThan(20);
    expect(keys.length).toBeLessThan(70);
    // Every allocation is as likely as another: a p-value of k in n stands with k of the n allocations, to rounding.
    const uniform = (values: readonly number[]) =>
      values.every((p) => Math.abs(values.filter((other) => other <= p * (1 + 1e-9)).length / keys.length - p) < 1e-9);
    expect(uniform(keys.map(pOf(false)))).toBe(true);
    expect(uniform(keys.map(pOf(true)))).toBe(false);
  });

  it.each([
    ['fewer walls than arms', { kind: 'complete', walls: walls(1), arms: arms(1, 1) }, 'too-few'],
    ['a block without two walls', { kind: 'pairs', walls: walls(5, 2), arms: arms(1, 1) }, 'too-few'],
    ['walls that do not come out even', { kind: 'complete', walls: walls(7), arms: arms(4, 4) }, 'out-of-range'],
    ['a wall without a block', { kind: 'blocks', walls: walls(4), arms: arms(1, 1) }, 'out-of-range'],
    ['a name twice', { kind: 'complete', walls: [{ wall: 'W1' }, { wall: 'W1' }], arms: arms(1, 1) }, 'out-of-range'],
    [
      'a constraint without before values',
      { kind: 'complete', walls: walls(4), arms: arms(2, 2), mostBeforeDifference: 1 },
      'out-of-range',
    ],
    [
      'a constraint that nothing meets',
      { kind: 'complete', walls: walls(3, 0, (at) => 10 ** at), arms: arms(1, 2), mostBeforeDifference: 0.001 },
      'not-possible',
    ],
  ] as const)('refuses %s', (_, plan, fault) =>
    expect(() => allocateWalls(plan, 1)).toThrowError(expect.objectContaining({ fault })),
  );
});

describe('wallCodes', () => {
  const names = Array.from({ length: 300 }, (_, at) => `W${at}`);

  it('gives every wall a code of its own', () => {
    const codes = wallCodes(names, 8);
    expect(new Set(codes.map(({ code }) => code)).size).toBe(300);
    expect(new Set(codes.map(({ wall }) => wall))).toEqual(new Set(names));
  });

  it('in an order that says nothing of the arms', () => {
    const plan = { kind: 'complete', walls: names.map((wall) => ({ wall })), arms: arms(150, 150) } as const;
    // The number of treated walls among the first half of the list, over 100 seeds: 75 expected, standard deviation 4.3 each.
    const total = Array.from({ length: 100 }, (_, seed) => {
      const armOf = new Map(allocateWalls(plan, seed).walls.map(({ wall, arm }) => [wall, arm]));
      return wallCodes(names, seed)
        .slice(0, 150)
        .filter(({ wall }) => armOf.get(wall) === 'device').length;
    }).reduce((sum, count) => sum + count, 0);
    expect(Math.abs(total / 100 - 75)).toBeLessThan(4 * 0.43);
  });
});
