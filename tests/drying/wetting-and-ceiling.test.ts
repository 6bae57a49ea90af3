import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import {
  evaporationCeiling,
  evaporationFromAir,
  frontSpeed,
  isDryingError,
  naturalDryingPrompt_d,
  risingFront,
  sensorArrivals,
  sharpFront,
  sorptivityOf,
  steadyBefore,
} from '../../src/drying/index.js';
import { normalDraws, randomStream } from '../../src/statistics/index.js';
import { expectRelative } from '../helpers/expect-relative.js';

const reference: {
  readonly tool: string;
  readonly cases: {
    readonly front: {
      readonly height: readonly number[];
      readonly time: readonly number[];
      readonly start: number;
      readonly startLimits: readonly number[];
      readonly speed: number;
      readonly speedLimits: readonly number[];
    };
  };
} = JSON.parse(readFileSync(new URL('../reference/drying-curves/drying-curves.json', import.meta.url), 'utf8'));

function faultOf(call: () => unknown) {
  try {
    call();
  } catch (error) {
    if (isDryingError(error)) return error.fault;
    throw error;
  }
  return undefined;
}

// Computed from the formulae, four digits: thickness, evaporation, height, water, flow, residence, 90 %.
const table = [
  [110, 0.001, 524.4, 11.54, 0.755, 15.3, 12.7],
  [150, 0.001, 612.4, 18.37, 0.882, 20.8, 17.3],
  [225, 0.001, 750.0, 33.75, 1.08, 31.2, 25.9],
  [500, 0.001, 1118.0, 111.8, 1.61, 69.4, 57.7],
  [225, 0.002, 530.3, 23.86, 1.527, 15.6, 13.0],
  [225, 0.0005, 1060.7, 47.73, 0.764, 62.5, 51.9],
] as const;

describe('sharpFront(wall)', () => {
  it.each(table)('gives the computed table: %d mm, %d mm/min', (thickness_mm, evaporation_mm_min, ...expected) => {
    const front = sharpFront({ sorptivity: 1, moistureBehindFront: 0.2, thickness_mm, evaporation_mm_min });
    const found = [front.steadyHeight_mm, front.water_l_m, front.flow_l_m_d, front.residence_d, front.timeTo90pct_d];
    // The table is rounded to a tenth in its last two columns.
    found.forEach((value, k) => {
      expect(Math.abs(value - expected[k]!)).toBeLessThan(k === 2 ? 6e-4 : k === 1 ? 6e-3 : 0.06);
    });
  });

  it('rises as computed on the way: 186.7, 450.7 and 692.8 mm after 1, 7 and 30 days', () => {
    const { heightAt } = sharpFront({
      sorptivity: 1,
      moistureBehindFront: 0.2,
      thickness_mm: 225,
      evaporation_mm_min: 0.001,
    });
    expect([1, 7, 30].map((day) => heightAt(day).toFixed(1))).toEqual(['186.7', '450.7', '692.8']);
    expect(faultOf(() => heightAt(-1))).toBe('out-of-range');
    expect(
      faultOf(() =>
        sharpFront({ sorptivity: 1, moistureBehindFront: 1.2, thickness_mm: 225, evaporation_mm_min: 0.001 }),
      ),
    ).toBe('out-of-range');
  });
});

describe('sensorArrivals(series), frontSpeed(arrivals), sorptivityOf(speed)', () => {
  // Twenty sensors up a wall of sorptivity 1 mm/min^0.5 and a fifth of water: the front stands at 5 √t.
  const draws = normalDraws(randomStream(5), 20 * 200);
  const series = Array.from({ length: 20 }, (_, k) => {
    const height_mm = 20 * (k + 2);
    const arrives = (height_mm / 5) ** 2;
    const times = Array.from({ length: 200 }, (_, at) => 50 * at);
    const values = times.map((time, at) => (time > arrives ? 14 : 3) + draws[200 * k + at]!);
    return { sensor: `S${k}`, height_mm, times, values };
  });

  it('find the arrivals, sensor after sensor, and the sorptivity that moved the front', () => {
    const arrivals = sensorArrivals(series.toReversed());
    const arrived = arrivals.flatMap((one) => (one.kind === 'arrived' ? [one] : []));
    expect(arrived.map(({ height_mm }) => height_mm)).toEqual(series.map(({ height_mm }) => height_mm));
    const times = arrived.map(({ step }) => step.time);
    expect(times.toSorted((one, other) => one - other)).toEqual(times);
    for (const { height_mm, step } of arrived) {
      expect(step.interval.lower).toBeLessThanOrEqual((height_mm / 5) ** 2);
      expect(step.interval.upper).toBeGreaterThanOrEqual((height_mm / 5) ** 2);
    }
    const front = arrived.map(({ height_mm, step }) => ({ height_mm, time_min: step.time }));
    for (const line of ['through-origin', 'with-intercept'] as const) {
      const { sorptivity, interval } = sorptivityOf(frontSpeed(front, { line }), 0.2);
      expectRelative(sorptivity, 1, 0.02);
      expect(interval.lower).toBeLessThan(1);
      expect(interval.upper).toBeGreaterThan(sorptivity);
    }
  });

  it('say why a sensor has no arrival', () => {
    const times = [0, 1, 2, 3, 4, 5, 6, 7];
    const reasonOf = (values: readonly number[]) => {
      const [one] = sensorArrivals([{ sensor: 'S', height_mm: 1, times: times.slice(0, values.length), values }]);
      return one?.kind === 'not-arrived' ? one.reason : undefined;
    };
    expect(reasonOf([3, 3, 3, 3, 3, 3])).toBe('sensor-stuck');
    expect(reasonOf([3, 3.1, 2.9, 3, 3.1, 2.9])).toBe('sensor-without-step');
    expect(reasonOf([9, 9.1, 8.9, 3, 3.1, 2.9])).toBe('sensor-dries');
    expect(reasonOf([3, 4])).toBe('sensor-read-too-rarely');
    expect(
      faultOf(() => sensorArrivals([{ sensor: 'S', height_mm: 1, times: [0, 1, 2, 2, 3], values: [1, 2, 1, 5, 6] }])),
    ).toBe('out-of-order');
    expect(faultOf(() => frontSpeed([{ height_mm: 1, time_min: 1 }], { line: 'through-origin' }))).toBe('too-few');
  });
});

describe('risingFront(arrivals)', () => {
  it(`has the line of R's lm of times on squared heights, with its limits (${reference.tool})`, () => {
    const { height, time, start, startLimits, speed, speedLimits } = reference.cases.front;
    const front = risingFront(height.map((height_mm, k) => ({ height_mm, time_d: time[k]! })));
    expectRelative(front.start_d, start, 1e-11);
    expectRelative(front.startInterval.lower, startLimits[0]!, 1e-10);
    expectRelative(front.startInterval.upper, startLimits[1]!, 1e-11);
    expectRelative(front.speed, speed, 1e-11);
    expectRelative(front.interval.lower, speedLimits[0]!, 1e-11);
    expectRelative(front.interval.upper, speedLimits[1]!, 1e-11);
  });

  it('refuses too few arrivals, one height, heights below the floor, and water that came from above', () => {
    const rising = [1, 2, 3, 4, 5].map((k) => ({ height_mm: 100 * k, time_d: k * k + (k % 2) / 10 }));
    expect(risingFront(rising).arrivals).toBe(5);
    // Three nearly on t = 25 h² with h in metres: one degree of freedom is enough for limits.
    const three = [
      [100, 0.26],
      [400, 3.99],
      [700, 12.25],
    ] as const;
    const few = risingFront(three.map(([height_mm, time_d]) => ({ height_mm, time_d })));
    // By hand: 1000/√(25 × 1440) = 5.27 mm/min^0.5.
    expectRelative(few.speed, 5.27, 0.002);
    expect(faultOf(() => risingFront(rising.slice(0, 2)))).toBe('too-few');
    expect(faultOf(() => risingFront(rising.map((one) => ({ ...one, height_mm: 100 }))))).toBe('too-few');
    expect(faultOf(() => risingFront(rising.map((one) => ({ ...one, height_mm: -1 }))))).toBe('out-of-range');
    expect(faultOf(() => risingFront(rising.map((one) => ({ ...one, time_d: -one.time_d }))))).toBe('out-of-order');
  });
});

describe('steadyBefore(curves)', () => {
  const curves = (trend: number) => {
    const draws = normalDraws(randomStream(11), 10 * 8);
    return Array.from({ length: 10 }, (_, wall) => {
      const times_d = Array.from({ length: 8 }, (_, visit) => 15 * visit);
      const moisture = times_d.map((time, visit) => 10 + (trend * time) / 30 + draws[8 * wall + visit]! * 0.3);
      return { times_d, moisture };
    });
  };

  it('sees walls at rest and walls that drift', () => {
    const rest = steadyBefore(curves(0));
    expect(rest.trendPer30Days.pValue).toBeGreaterThan(0.05);
    const drying = steadyBefore(curves(-0.5));
    expect(drying.trendPer30Days.interval.upper).toBeLessThan(0);
    expectRelative(drying.trendPer30Days.estimate, rest.trendPer30Days.estimate - 0.5, 1e-9);
  });

  it('refuses too few walls and visits', () => {
    expect(faultOf(() => steadyBefore(curves(0).slice(0, 1)))).toBe('too-few');
    expect(faultOf(() => steadyBefore([{ times_d: [0, 1], moisture: [1, 2] }, curves(0)[0]!]))).toBe('too-few');
  });
});

describe('evaporationCeiling(wall), evaporationFromAir(readings), naturalDryingPrompt_d(thickness)', () => {
  it('is 2.857 points for 0.5 mm a day, 30 days, 300 mm, 1750 kg/m³ (computed)', () => {
    const wall = { thickness_mm: 300, density_kg_m3: 1750, evaporation_mm_d: 0.5, period_d: 30 };
    expectRelative(evaporationCeiling(wall), 100 * (15 / 525), 1e-14);
    expect(evaporationCeiling(wall).toFixed(3)).toBe('2.857');
    expect(faultOf(() => evaporationCeiling({ ...wall, thickness_mm: 0 }))).toBe('out-of-range');
  });

  it('is the pressure difference times the coefficient: 1166.3 Pa at 20 °C and 50 % (computed)', () => {
    const air = [0, 24].map((time_h) => ({ time_h, temperature_c: 20, relativeHumidity_pct: 50 }));
    expectRelative(evaporationFromAir(air, 25e-9).evaporation_mm_d, 25e-9 * 1166.3 * 86_400, 1e-4);
    expect(faultOf(() => evaporationFromAir(air, 0))).toBe('out-of-range');
  });

  it('prompts for a month for every 25 mm (common practice, no source)', () => {
    expect(naturalDryingPrompt_d(225)).toBe(274);
  });
});
