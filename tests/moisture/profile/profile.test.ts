import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  dampFront,
  dampFrontByOrder,
  gravimetricMoisture,
  type MoistureAtPoint,
  storedWater,
  toDegreeOfSaturation,
  toVolumeBasis,
  toWetBasis,
  wallMap,
  wallMapOfChange,
} from '../../../src/moisture/index.js';

interface Reference {
  fronts: {
    name: string;
    height_mm: number[];
    value: number[];
    below: number;
    above: number;
    front: number;
    width: number;
    lower: number;
    upper: number;
  }[];
  stores: {
    name: string;
    heights_mm: number[];
    depths_mm: number[];
    value_pct: number[][];
    standardUncertainty_pp: number[][];
    thickness_mm: number;
    dryDensity: number;
    dryDensityUncertainty: number;
    water: number;
    standardUncertainty: number;
  }[];
  masses: {
    container_g: number;
    wet_g: number;
    dry_g: number;
    dryBasis: number;
    wetBasis: number;
    byVolume: number;
    saturation: number;
    uncertainty: number;
  }[];
}
const url = new URL('../../reference/moisture/moisture.json', import.meta.url);
const { fronts, stores, masses } = JSON.parse(readFileSync(url, 'utf8')) as Reference;

const pointsOf = (heights: readonly number[], values: readonly number[]): MoistureAtPoint[] =>
  heights.map((height_mm, k) => ({ height_mm, value_pct: values[k]! }));
const heights = [100, 300, 500, 700, 900, 1100];
const close = (found: number, expected: number, relative: number) => {
  expect(Math.abs(found - expected), `${found} beside ${expected}`).toBeLessThan(relative * Math.abs(expected));
};

describe('dampFront', () => {
  it.each(fronts)("R's nls, and the root of its profile: $name", (reference) => {
    const front = dampFront(pointsOf(reference.height_mm, reference.value));
    // R stops at a relative offset of 1e-7 and its profile search at 1e-10 of a sum of squares.
    close(front.height_mm, reference.front, 1e-6);
    close(front.below_pct, reference.below, 1e-6);
    close(front.above_pct, reference.above, 1e-6);
    close(front.width_mm, reference.width, 1e-5);
    close(front.interval.lower, reference.lower, 1e-5);
    close(front.interval.upper, reference.upper, 1e-5);
    expect(front.openTowards).toEqual([]);
  });

  it('dampFront in another unit of moisture, and moved up the wall, moves with it', () => {
    const { height_mm, value } = fronts[0]!;
    const front = dampFront(pointsOf(height_mm, value));
    const other = dampFront(
      pointsOf(
        height_mm.map((height) => height + 250),
        value.map((one) => 3 * one + 1),
      ),
    );
    close(other.height_mm, front.height_mm + 250, 1e-6);
    close(other.interval.upper, front.interval.upper + 250, 1e-6);
  });

  it.each([
    ['four heights', [9, 8, 3, 2], 'too-few', 'at least 5'],
    ['a rising wall', [2, 2.1, 4, 8, 9, 9.2], 'reversed', 'rises'],
    ['scatter only', [5.2, 4.9, 5.3, 5.0, 5.25, 4.95], 'no-front', 'hides'],
    ['a front above the ladder', [9, 8.99, 8.93, 8.7, 8.05, 6.5], 'no-front', 'above'],
    ['a front under the floor', [6.5, 4.05, 3.35, 3.1, 3.04, 3], 'no-front', 'below'],
    ['a missing value', [9, 8, Number.NaN, 3, 2, 1], 'not-finite', 'finite'],
  ])('dampFront refuses %s', (_, values, fault, words) => {
    expect(() => dampFront(pointsOf(heights.slice(0, values.length), values))).toThrow(
      expect.objectContaining({ fault, message: expect.stringContaining(words) }),
    );
  });
});

describe('dampFront asks for a fall first', () => {
  /** Slope b over x = −5 to 5 and residuals across it: Student's t is b·√70 on 4 degrees of freedom. R 4: qt(0.95, 4) = 2.131847. */
  const refusalAt = (t: number): string => {
    const values = [1, -1, 0, 0, -1, 1].map((left, k) => 5 + left - ((2 * k - 5) * t) / Math.sqrt(70));
    try {
      dampFront(pointsOf(heights, values));
      return 'none';
    } catch (error) {
      return error instanceof Error ? error.message : 'no error';
    }
  };

  it('by the one-sided t of the straight line at 5 %, whatever the curve makes of it', () => {
    expect(refusalAt(2.13)).toContain('scatter that hides it');
    expect(refusalAt(2.134)).not.toContain('scatter that hides it');
  });

  it('dampFront says that a curve cannot be fitted, which is not that there is no fall', () => {
    expect(() => dampFront(pointsOf([150, 400, 700, 1000, 1400], [11.2, 10.7, 11.3, 9.9, 4.3]))).toThrow(
      expect.objectContaining({ name: 'StatisticsError', fault: 'collinear' }),
    );
  });
});

describe('dampFrontByOrder', () => {
  it('dampFrontByOrder crosses half way between pooled levels, worked by hand', () => {
    // Pooled: 10, 10, 5, 5, 2; half way at 6, a share 4/5 of the way from 400 to 700.
    const front = dampFrontByOrder(pointsOf([100, 400, 700, 1000, 1300], [9, 11, 4, 6, 2]));
    expect(front.height_mm).toBeCloseTo(640, 9);
    expect(front.bracket).toEqual({ lower_mm: 400, upper_mm: 700 });
    expect([front.below_pct, front.above_pct]).toEqual([10, 2]);
  });

  it('dampFrontByOrder lies in its bracket, and the bracket inside the measured heights', () => {
    const profile = fc.array(fc.integer({ min: 0, max: 90 }), { minLength: 3, maxLength: 8 });
    fc.assert(
      fc.property(profile, (values) => {
        const sorted = [...values].sort((one, other) => other - one);
        fc.pre(sorted[0]! > sorted.at(-1)!);
        const front = dampFrontByOrder(pointsOf(heights.concat(1300, 1500), sorted).slice(0, sorted.length));
        expect(front.height_mm).toBeGreaterThan(front.bracket.lower_mm);
        expect(front.height_mm).toBeLessThanOrEqual(front.bracket.upper_mm);
      }),
      { numRuns: 50 },
    );
  });

  it.each([
    [[5, 5, 5, 5, 5, 5], 'no-front'],
    [[1, 2, 3, 4, 5, 6], 'reversed'],
  ])('dampFrontByOrder refuses %j: %s', (values, fault) => {
    expect(() => dampFrontByOrder(pointsOf(heights, values))).toThrow(expect.objectContaining({ fault }));
  });
});

describe('storedWater', () => {
  const gridOf = (reference: Reference['stores'][number]) =>
    reference.heights_mm.flatMap((height_mm, i) =>
      reference.depths_mm.map((depth_mm, j) => ({
        height_mm,
        depth_mm,
        value_pct: reference.value_pct[i]![j]!,
        standardUncertainty_pp: reference.standardUncertainty_pp[i]![j]!,
      })),
    );

  it.each(stores)("R's integrate on the interpolated grid: $name", (reference) => {
    const found = storedWater(gridOf(reference), {
      thickness_mm: reference.thickness_mm,
      dryDensity_kg_m3: reference.dryDensity,
      dryDensityUncertainty_kg_m3: reference.dryDensityUncertainty,
    });
    close(found.value, reference.water, 1e-12);
    close(found.standardUncertainty, reference.standardUncertainty, 1e-12);
    expect(found.rows).toHaveLength(13);
  });

  it('storedWater of two heights and two depths is 18.75 kg/m² with u = 0.697, worked by hand', () => {
    const at = (height_mm: number, depth_mm: number, value_pct: number) => ({
      ...{ height_mm, depth_mm, value_pct, standardUncertainty_pp: 0.2 },
    });
    const points = [at(0, 50, 8), at(0, 100, 10), at(1000, 50, 2), at(1000, 100, 4)];
    const body = { thickness_mm: 200, dryDensity_kg_m3: 1500, dryDensityUncertainty_kg_m3: 50 };
    const water = storedWater(points, body);
    // 75 and 125 mm of depth: 9.25 % below and 3.25 % above, 6.25 % of 1500 kg/m³ × 0.2 m.
    expect(water.value).toBeCloseTo(18.75, 10);
    // Slopes 0.5625 and 0.9375 kg/m² a point, twice each; and 50/1500 of 18.75.
    const ofPoints = 0.2 * Math.sqrt(2 * (0.5625 ** 2 + 0.9375 ** 2));
    expect(water.standardUncertainty).toBeCloseTo(Math.hypot(ofPoints, 0.625), 10);
    expect(water.standardUncertainty).toBeCloseTo(0.6973, 4);
  });

  it('storedWater of an even wall is its moisture times its mass, wherever the points are', () => {
    const places = fc.uniqueArray(fc.tuple(fc.integer({ min: 0, max: 20 }), fc.integer({ min: 0, max: 20 })), {
      minLength: 4,
      maxLength: 20,
      selector: ([height, depth]) => `${height} ${depth}`,
    });
    fc.assert(
      fc.property(places, (list) => {
        fc.pre(new Set(list.map(([height]) => height)).size > 1);
        const points = list.map(([height, depth]) => ({
          height_mm: 100 * height,
          depth_mm: 10 * depth,
          value_pct: 7,
          standardUncertainty_pp: 0.3,
        }));
        // 0.07 × 1800 kg/m³ × 0.2 m
        expect(storedWater(points, { thickness_mm: 200, dryDensity_kg_m3: 1800 }).value).toBeCloseTo(25.2, 9);
      }),
      { numRuns: 50 },
    );
  });

  const place = (height_mm: number, depth_mm: number) => ({
    height_mm,
    depth_mm,
    value_pct: 5,
    standardUncertainty_pp: 0.2,
  });
  it.each([
    ['one height', [place(100, 20)], 'too-few'],
    ['the same place twice', [place(100, 20), place(100, 20), place(300, 20)], 'out-of-order'],
    ['a depth beyond the wall', [place(100, 20), place(300, 240)], 'out-of-range'],
  ])('storedWater refuses %s', (_, points, fault) => {
    expect(() => storedWater(points, { thickness_mm: 200, dryDensity_kg_m3: 1800 })).toThrow(
      expect.objectContaining({ fault }),
    );
  });

  describe('of cores that take in intervals', () => {
    const core = (height_mm: number, from: number, to: number, value_pct: number) => ({
      ...{ height_mm, depth_mm: (from + to) / 2, depths_mm: { from, to }, value_pct, standardUncertainty_pp: 0.2 },
    });
    const body = { thickness_mm: 400, dryDensity_kg_m3: 1700 };

    it('counts each for its interval and half of the gaps, and tells what lies beyond the deepest (by hand)', () => {
      const at = (height_mm: number) => [core(height_mm, 0, 60, 4), core(height_mm, 100, 160, 8)];
      const water = storedWater([...at(0), ...at(1000)], body);
      // 80 mm at 4 %, 320 mm at 8 %: 28.8 mm of dry wall’s mass; 240 mm beyond 160 mm hold 19.2 of it.
      expect(water.value).toBeCloseTo(1700 * 0.0288, 10);
      expect(water.beyondShare).toBeCloseTo(0.6, 12);
      expect(water.beyond_kg_m2).toBeCloseTo(1700 * 0.0192, 10);
      expect(water.standardUncertainty).toBeCloseTo(17 * 0.2 * Math.sqrt(2 * (0.04 ** 2 + 0.16 ** 2)), 10);
    });

    it('leaves nothing beyond cores of both faces, nor beyond a value without a depth', () => {
      const both = (height_mm: number) => [core(height_mm, 0, 60, 4), core(height_mm, 340, 400, 6)];
      const water = storedWater([...both(0), ...both(1000)], body);
      expect(water.value).toBeCloseTo(1700 * 0.4 * 0.05, 10);
      expect([water.beyondShare, water.beyond_kg_m2]).toEqual([0, 0]);
      const whole = [0, 1000].map((height_mm) => ({ height_mm, value_pct: 5, standardUncertainty_pp: 0.2 }));
      expect(storedWater(whole, body).beyondShare).toBe(0);
    });

    it('is the trapezoid of points where intervals shrink to points: 66 % of 440 mm beyond cores of 40 and 150 mm', () => {
      const points = [0, 1000].flatMap((height_mm) =>
        [40, 150].map((depth_mm) => ({ height_mm, depth_mm, value_pct: depth_mm / 10, standardUncertainty_pp: 0.2 })),
      );
      const water = storedWater(points, { thickness_mm: 440, dryDensity_kg_m3: 1700 });
      expect(water.value).toBeCloseTo((1700 * (95 * 4 + 345 * 15)) / 1e5, 10);
      expect(water.beyondShare).toBeCloseTo(290 / 440, 12);
      const shrunk = points.map((one) => ({ ...one, depths_mm: { from: one.depth_mm, to: one.depth_mm } }));
      expect(storedWater(shrunk, { thickness_mm: 440, dryDensity_kg_m3: 1700 })).toEqual(water);
    });

    it.each([
      ['cores that overlap', [core(0, 0, 60, 4), core(0, 59, 160, 8)], 'out-of-range'],
      ['a core that ends beyond the wall', [core(0, 300, 401, 4)], 'out-of-range'],
      ['an interval that does not hold its depth', [{ ...core(0, 0, 60, 4), depth_mm: 61 }], 'out-of-range'],
    ])('refuses %s', (_, points, fault) => {
      expect(() => storedWater([...points, core(1000, 0, 60, 4)], body)).toThrow(expect.objectContaining({ fault }));
    });

    it('takes cores that touch, and one that ends with the wall', () => {
      const at = (height_mm: number) => [core(height_mm, 0, 200, 4), core(height_mm, 200, 400, 8)];
      expect(storedWater([...at(0), ...at(500)], body).value).toBeCloseTo(1700 * 0.4 * 0.06, 10);
    });
  });
});

describe('wallMap', () => {
  it('wallMapOfChange is after less before where both visits measured, and says of how many', () => {
    const before = [...pointsOf([100, 100, 500], [8, 10, 4]), { height_mm: 100, depth_mm: 50, value_pct: 6 }];
    const after = pointsOf([500, 100, 900], [3, 7, 1]);
    expect(wallMap(before).map(({ value, n }) => [value, n])).toEqual([
      [9, 2],
      [6, 1],
      [4, 1],
    ]);
    expect(wallMapOfChange(before, after)).toEqual([
      { height_mm: 100, value: -2, n: 1 },
      { height_mm: 500, value: -1, n: 1 },
    ]);
  });
});

describe('from masses to moisture', () => {
  it.each(masses)('written out again in R: container $container_g g, wet $wet_g g, dry $dry_g g', (reference) => {
    const dry = gravimetricMoisture(reference, 0.005);
    close(dry.value, reference.dryBasis, 1e-12);
    // R differences the masses by 1e-4 g.
    close(dry.standardUncertainty, reference.uncertainty, 1e-7);
    const content = { basis: 'dry', unit: '% by mass', value: dry.value } as const;
    close(toWetBasis(content).value, reference.wetBasis, 1e-12);
    close(toVolumeBasis(content, { dryDensity_kg_m3: 1750 }).value, reference.byVolume, 1e-12);
    close(toDegreeOfSaturation(content, { kind: 'vacuum', saturated_pct: 16 }).value, reference.saturation, 1e-12);
  });
});
