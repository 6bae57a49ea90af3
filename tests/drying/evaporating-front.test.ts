import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import {
  type DayOfArrival,
  evaporatingFront,
  evaporationOfFront,
  isDryingError,
  risingFront,
  rootTimeTest,
  sharpFront,
  sorptivityOf,
} from '../../src/drying/index.js';
import { expectRelative } from '../helpers/expect-relative.js';

interface Limits {
  readonly lower: number;
  readonly upper: number;
}
interface Case {
  readonly name: string;
  readonly height: readonly number[];
  readonly time: readonly number[];
  readonly line: Limits & { readonly speed: number };
  readonly curvature: Limits & { readonly estimate: number; readonly pValue: number; readonly freedom: number };
  readonly curve: Limits & {
    readonly start: number;
    readonly speed: number;
    readonly rest: number;
    readonly lowest: number;
    readonly highest?: number;
    readonly loss: number;
  };
}
const reference: { readonly tool: string; readonly cases: readonly Case[] } = JSON.parse(
  readFileSync(new URL('../reference/wetting/wetting.json', import.meta.url), 'utf8'),
);

const arrivalsOf = (height: readonly number[], time: readonly number[]): readonly DayOfArrival[] =>
  height.map((height_mm, k) => ({ height_mm, time_d: time[k]! }));

function faultOf(call: () => unknown) {
  try {
    call();
  } catch (error) {
    if (isDryingError(error)) return error.fault;
    throw error;
  }
  return undefined;
}

/** The wall of the check table, 225 mm with S = 1 and a fifth of water, with arrivals a little early and late in turn. */
function checked(evaporation_mm_min: number, off_d = 0.02, heights = [50, 150, 250, 350, 450, 550, 650, 700]) {
  const wall = { sorptivity: 1, moistureBehindFront: 0.2, thickness_mm: 225, evaporation_mm_min };
  const { steadyHeight_mm, residence_d } = sharpFront(wall);
  return heights.map((height_mm, k) => ({
    height_mm,
    time_d: 3 - (residence_d / 2) * Math.log1p(-((height_mm / steadyHeight_mm) ** 2)) + off_d * [1, -1, -1, 1][k % 4]!,
  }));
}

describe('evaporatingFront(arrivals), rootTimeTest(arrivals)', () => {
  it.each(reference.cases)(
    `has the curve of R's optimize over lm, limits by profile (${reference.tool}): $name`,
    (one) => {
      const front = evaporatingFront(arrivalsOf(one.height, one.time));
      const { curve } = one;
      expectRelative(front.start_d, curve.start, 1e-6);
      expectRelative(front.speed, curve.speed, 1e-7);
      expectRelative(front.interval.lower, curve.lower, 1e-6);
      expectRelative(front.interval.upper, curve.upper, 1e-6);
      expectRelative(front.rest?.height_mm, curve.rest, 1e-6);
      expectRelative(front.rest?.lowest_mm, curve.lowest, 1e-6);
      expectRelative(front.rest?.highest_mm, curve.highest ?? Number.NaN, 1e-6);
      expectRelative(front.rest?.loss_per_d, curve.loss, 1e-6);
    },
  );

  it.each(reference.cases)(`has the quadratic term of R's lm with its p-value (${reference.tool}): $name`, (one) => {
    const test = rootTimeTest(arrivalsOf(one.height, one.time));
    expectRelative(test.curvature, one.curvature.estimate, 1e-10);
    expectRelative(test.interval.lower, one.curvature.lower, 1e-10);
    expectRelative(test.interval.upper, one.curvature.upper, 1e-10);
    expectRelative(test.pValue, one.curvature.pValue, 1e-9);
    expect(test.degreesOfFreedom).toBe(one.curvature.freedom);
  });

  it('finds sorptivity 1 and 750 mm of the check table (S = 1, 225 mm, 1.44 mm a day), where root time says 0.7', () => {
    const arrivals = checked(0.001);
    const front = evaporatingFront(arrivals);
    const { sorptivity, interval } = sorptivityOf({ slope: front.speed, interval: front.interval }, 0.2);
    expectRelative(sorptivity, 1, 0.01);
    expect(interval.lower).toBeLessThan(1);
    expect(interval.upper).toBeGreaterThan(1);
    expectRelative(front.rest?.height_mm, 750, 0.002);
    expectRelative(front.rest?.loss_per_d, 1 / 31.25, 0.02);
    expectRelative(
      evaporationOfFront({ loss_per_d: 0.032 }, { thickness_mm: 225, moistureBehindFront: 0.2 }),
      1.44,
      1e-12,
    );
    const straight = risingFront(arrivals);
    const plain = sorptivityOf({ slope: straight.speed, interval: straight.interval }, 0.2);
    expect(plain.sorptivity).toBeLessThan(0.75);
    expect(plain.interval.upper).toBeLessThan(1);
    expect(rootTimeTest(arrivals).pValue).toBeLessThan(0.01);
    expect(rootTimeTest(arrivals).curvature).toBeGreaterThan(0);
  });

  it('has no highest rest where the arrivals do not exclude that nothing evaporates', () => {
    const { rest } = evaporatingFront(checked(0.0001, 0.25));
    expect(rest?.lowest_mm).toBeGreaterThan(700);
    expect(rest?.highest_mm).toBeUndefined();
  });

  it('is the line of the root of time where the front runs ahead of it', () => {
    const arrivals = [100, 200, 300, 400, 500, 600].map((height_mm, k) => ({
      height_mm,
      time_d: 2 + 25 * (height_mm / 1000) ** 1.8 + 0.01 * (k % 2),
    }));
    const { speed, interval, start_d, rest } = evaporatingFront(arrivals);
    const straight = risingFront(arrivals);
    expect({ speed, interval, start_d }).toEqual({
      speed: straight.speed,
      interval: straight.interval,
      start_d: straight.start_d,
    });
    expect(rest).toBeUndefined();
    expect(rootTimeTest(arrivals).curvature).toBeLessThan(0);
  });

  it('refuses three heights, one arrival below the floor, exact curves and moisture out of range', () => {
    for (const refuse of [evaporatingFront, rootTimeTest]) {
      expect(faultOf(() => refuse(checked(0.001).slice(0, 3)))).toBe('too-few');
      // By their number, not by a fit that fails on three: start, slope and bend leave three arrivals no scatter.
      expect(() => refuse(checked(0.001).slice(0, 3))).toThrow(/at least 4/);
      expect(faultOf(() => refuse(checked(0.001, 0.02, [50, 300, 550, 700])))).toBeUndefined();
      expect(faultOf(() => refuse(checked(0.001).map((one) => ({ ...one, height_mm: one.height_mm - 60 }))))).toBe(
        'out-of-range',
      );
    }
    expect(faultOf(() => evaporationOfFront({ loss_per_d: 0.03 }, { thickness_mm: 225, moistureBehindFront: 1 }))).toBe(
      'out-of-range',
    );
    expect(faultOf(() => evaporationOfFront({ loss_per_d: 0 }, { thickness_mm: 225, moistureBehindFront: 0.2 }))).toBe(
      'out-of-range',
    );
  });
});

describe('sorptivityOf(speed, moisture)', () => {
  it('joins the limits of both factors on the logarithm, by hand: 5 (4 to 6.25) × 0.2 (0.16 to 0.25)', () => {
    const speed = { slope: 5, interval: { level: 0.95, lower: 4, upper: 6.25 } };
    const moisture = { value: 0.2, interval: { level: 0.95, lower: 0.16, upper: 0.25 } };
    const { sorptivity, interval } = sorptivityOf(speed, moisture);
    // Each limit is a factor of 1.25 away; together exp(√2 ln 1.25) = 1.371045.
    expect(sorptivity).toBe(1);
    expectRelative(interval.upper, 1.371_045, 1e-5);
    expectRelative(interval.lower, 1 / 1.371_045, 1e-5);
    expect(faultOf(() => sorptivityOf(speed, { ...moisture, interval: { level: 0.95, lower: 0, upper: 0.25 } }))).toBe(
      'out-of-range',
    );
    expect(sorptivityOf(speed, 0.2).interval.lower).toBeCloseTo(0.8, 12);
  });
});
