import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  heightPattern,
  heightPatternOfWalls,
  isMoistureError,
  type MoistureAtHeight,
  patternPossibilities,
} from '../../../src/moisture/index.js';
import { normalDraws, randomStream } from '../../../src/statistics/index.js';

const profile = (values: readonly number[], standardUncertainty_pp = 0.3): MoistureAtHeight[] =>
  values.map((value_pct, index) => ({ height_mm: 300 + 400 * index, value_pct, standardUncertainty_pp }));
const shape = (values: readonly number[], uncertainty?: number) =>
  heightPattern(profile(values, uncertainty), { relevantDifference_pp: 2 }).shape;

describe('heightPattern', () => {
  it('tells falling, rising, flat and peaked profiles', () => {
    expect(shape([9, 6, 3, 1])).toBe('falling');
    expect(shape([1, 3, 6, 9])).toBe('rising');
    expect(shape([4, 4.1, 3.9, 4])).toBe('flat');
    expect(shape([3, 8, 4, 3])).toBe('peaked');
  });

  it('allows a plateau, and is undecided where uncertainty hides what would matter or the profile dips', () => {
    expect(shape([9, 9, 2, 2])).toBe('falling');
    expect(heightPattern(profile([9, 6, 3, 1], 4), { relevantDifference_pp: 2 })).toMatchObject({
      shape: 'undecided',
      because: 'hidden-by-uncertainty',
    });
    expect(shape([3, 8, 2, 8])).toBe('undecided');
    expect(heightPattern(profile([8, 2, 8]), { relevantDifference_pp: 2 })).toMatchObject({
      shape: 'undecided',
      because: 'falls-and-rises',
    });
  });

  it('gives base and peak with intervals wide enough for all comparisons: z = 2.394 for three pairs, R: qnorm(1 - 0.05/6)', () => {
    const pattern = heightPattern(profile([3, 8, 4]), { relevantDifference_pp: 2 });
    expect(pattern.base).toMatchObject({ height_mm: 300, value_pct: 3, lower_pct: expect.closeTo(3 - 0.3 * 2.394, 3) });
    expect(pattern.highest).toMatchObject({ height_mm: 700, value_pct: 8 });
    expect(pattern.range_pp).toBe(5);
  });

  it('turns round with the wall, and does not depend on the order of the points', () => {
    const mirrored = { falling: 'rising', rising: 'falling', flat: 'flat', peaked: 'peaked', undecided: 'undecided' };
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 0, max: 12 }), { minLength: 3, maxLength: 6 }), (values) => {
        const options = { relevantDifference_pp: 2 };
        const there = heightPattern(profile(values), options);
        expect(heightPattern(profile(values).reverse(), options)).toEqual(there);
        expect(shape([...values].reverse())).toBe(mirrored[there.shape]);
      }),
    );
  });

  it('never calls a shape from points that are too uncertain to differ', () => {
    fc.assert(
      fc.property(fc.array(fc.double({ min: 0, max: 5, noNaN: true }), { minLength: 3, maxLength: 6 }), (values) => {
        expect(shape(values, 10)).toBe('undecided');
      }),
    );
  });

  it('refuses two heights, the same height twice, and a profile without uncertainty to compare by', () => {
    expect(() => shape([9, 3])).toThrow(/at least 3 heights/);
    const twice = profile([9, 5, 3]).map((point) => ({ ...point, height_mm: 300 }));
    expect(() => heightPattern(twice, { relevantDifference_pp: 2 })).toThrow(/one point at each height/);
    expect(() => shape([9, 5, 3], Number.NaN)).toThrow(/finite/);
    expect(() => heightPattern(profile([9, 5, 3]), { relevantDifference_pp: 0 })).toThrow(/above 0/);
  });
});

describe('heightPatternOfWalls', () => {
  const walls = (...values: (readonly number[])[]) =>
    values.map((own) => own.map((value_pct, index) => ({ height_mm: 300 + 400 * index, value_pct })));
  const relevant = { relevantDifference_pp: 1 };
  const four = [
    [9.1, 6.2, 3.4],
    [11, 8.4, 4.9],
    [7.2, 5.5, 1.8],
    [10.1, 6.9, 4.4],
  ];

  it('gives base and highest with Student’s t of three pairs (R 4: qt(1 - 0.05/6, 3) * sd(x) / 2)', () => {
    const pattern = heightPatternOfWalls(walls(...four), relevant);
    expect(pattern.shape).toBe('falling');
    expect(pattern.base.value_pct).toBeCloseTo(9.35, 10);
    expect(pattern.base.upper_pct).toBeCloseTo(9.35 + 3.95800186674, 9);
    expect(pattern.highest).toEqual(pattern.base);
    expect(pattern.range_pp).toBeCloseTo(9.35 - 3.625, 10);
  });

  it('compares heights inside walls: what a wall is wetter than another hides no fall', () => {
    const steps = [3, 2.9, 3.1, 3, 3.05];
    const level = [2, 8, 14, 20, 26];
    const values = level.map((own, wall) => [own + (steps[wall] ?? 0), own, own]);
    expect(heightPatternOfWalls(walls(...values), relevant).shape).toBe('falling');
    // As known uncertainties of independent heights, the spread of 9.5 points between walls hides it.
    const pooled = [300, 700, 1100].map((height_mm, at) => {
      const mean = values.reduce((sum, own) => sum + (own[at] ?? 0), 0) / 5;
      return { height_mm, value_pct: mean, standardUncertainty_pp: 9.5 / Math.sqrt(5) };
    });
    expect(heightPattern(pooled, relevant).shape).toBe('undecided');
  });

  it('calls a shape in some 5 of 100 sets of four level walls at most, as the error rate says', () => {
    const stream = randomStream(20260214);
    const shapes = Array.from({ length: 1000 }, () => {
      const draws = normalDraws(stream, 16);
      const values = [0, 1, 2, 3].map((wall) => [0, 1, 2, 3].map((height) => draws[4 * wall + height] ?? 0));
      return heightPatternOfWalls(walls(...values), relevant).shape;
    });
    const called = shapes.filter((shape) => !['undecided', 'flat'].includes(shape)).length;
    expect(called).toBeGreaterThan(0);
    expect(called).toBeLessThan(70);
  });

  it('uses the walls that have both heights, and refuses where fewer than two have', () => {
    const [first = [], ...others] = walls(...four);
    expect(heightPatternOfWalls([first.slice(0, 2), ...others], relevant).shape).toBe('falling');
    const refused = (run: () => unknown) => {
      try {
        run();
      } catch (error) {
        return isMoistureError(error) ? error.fault : error;
      }
      return 'no refusal';
    };
    expect(refused(() => heightPatternOfWalls([first], relevant))).toBe('too-few');
    expect(refused(() => heightPatternOfWalls(walls([9, 3], [8, 2]), relevant))).toBe('too-few');
    expect(refused(() => heightPatternOfWalls([first, [...first, ...first]], relevant))).toBe('out-of-order');
    expect(refused(() => heightPatternOfWalls(walls([9, 5, Number.NaN], [8, 4, 2]), relevant))).toBe('not-finite');
  });
});

describe('patternPossibilities', () => {
  const pattern = (values: readonly number[], uncertainty?: number) =>
    heightPattern(profile(values, uncertainty), { relevantDifference_pp: 2 });
  const causes = (excess: readonly number[], hygroscopic: readonly number[]) =>
    patternPossibilities(pattern(excess), pattern(hygroscopic)).map(({ cause }) => cause);

  it('offers rising damp for a falling excess, and never alone', () => {
    expect(causes([6, 3, 1, 0], [2, 2, 2, 2])).toEqual(['rising-damp', 'penetration', 'condensation']);
  });

  it('offers salts and no liquid supply where no height has a clear excess, whatever the shape', () => {
    expect(causes([0.1, -0.1, 0, 0], [2, 2, 2, 2])).toEqual(['hygroscopic-salts']);
    expect(causes([0, -2, -4, -5], [2, 4, 6, 7])).toEqual(['hygroscopic-salts']);
  });

  it('reads a peak of hygroscopic moisture as a band of salts, with its height', () => {
    const possible = patternPossibilities(pattern([6, 3, 1, 0]), pattern([2, 3, 7, 2]));
    expect(possible.find(({ cause }) => cause === 'hygroscopic-salts')?.because).toEqual({
      sign: 'salts-peak',
      height_mm: 1100,
    });
  });

  it('offers nothing where the excess is undecided', () => {
    expect(patternPossibilities(pattern([6, 3, 1, 0], 5), pattern([2, 2, 2, 2]))).toEqual([]);
  });

  it('never names one cause as the only one for a clear excess', () => {
    for (const values of [
      [6, 3, 1, 0],
      [0, 1, 3, 6],
      [5, 5, 5, 5],
      [1, 6, 1, 1],
    ])
      expect(new Set(causes(values, [2, 2, 2, 2])).size).toBeGreaterThan(1);
  });
});
