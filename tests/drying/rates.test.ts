import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  commonPeriod_d,
  type DryingFault,
  type DryingModelKind,
  dayOfMoisture,
  dryingIndex,
  dryingInterval,
  dryingModels,
  dryingOfCurve,
  fitDryingModel,
  isDryingError,
  meanCurve,
  specimenDryingRates,
} from '../../src/drying/index.js';
import { normalDraws, randomStream } from '../../src/statistics/index.js';
import { expectRelative } from '../helpers/expect-relative.js';

interface Shape {
  readonly estimates: Readonly<Record<string, number>>;
  readonly errors?: Readonly<Record<string, number>>;
  readonly criterion: number;
}

const url = new URL('../reference/drying-curves/drying-curves.json', import.meta.url);
const { shapes }: { readonly shapes: { readonly x: number[]; readonly response: number[] } & Record<string, Shape> } =
  JSON.parse(readFileSync(url, 'utf8')).cases;
const weight = { times_d: shapes.x, moisture: shapes.response };

function faultOf(call: () => unknown): DryingFault | undefined {
  try {
    call();
  } catch (error) {
    if (isDryingError(error)) return error.fault;
    throw error;
  }
  return undefined;
}

/** Readings of a known curve with seeded scatter. */
function scattered(moistureAt: (day: number) => number, days: readonly number[], spread: number, seed = 1) {
  const draws = normalDraws(randomStream(seed), days.length);
  return { times_d: days, moisture: days.map((day, k) => moistureAt(day) + spread * draws[k]!) };
}

const everyTenDays = Array.from({ length: 31 }, (_, k) => 10 * k);

describe('dryingIndex(curve, period_d)', () => {
  it('is 0.36508 for 18, 12, 8, 4, 2 % at 0, 24, 48, 96, 168 h (computed by hand: 1104 over 18 times 168)', () => {
    const curve = { times_d: [0, 1, 2, 4, 7], moisture: [18, 12, 8, 4, 2] };
    expectRelative(dryingIndex(curve, 7), 1104 / (18 * 168), 1e-14);
    expect(dryingIndex(curve, 7).toFixed(5)).toBe('0.36508');
    // The area up to day 3, by hand: 15 + 10 + 7.
    expectRelative(dryingIndex(curve, 3), 32 / (18 * 3), 1e-14);
  });

  it('lies from 0 to 1 for whatever falls, and does not change with the unit', () => {
    const falling = fc
      .array(fc.double({ min: 0.1, max: 5, noNaN: true }), { minLength: 3, maxLength: 12 })
      .map((falls) => falls.map((_, k) => falls.slice(k).reduce((sum, fall) => sum + fall, 0)));
    fc.assert(
      fc.property(falling, (moisture) => {
        const curve = { times_d: moisture.map((_, k) => k * k), moisture };
        const period = (moisture.length - 1) ** 2;
        const index = dryingIndex(curve, period);
        expect(index).toBeGreaterThan(0);
        expect(index).toBeLessThan(1);
        const scaled = { times_d: curve.times_d, moisture: moisture.map((value) => value / 100) };
        expectRelative(dryingIndex(scaled, period), index, 1e-12);
      }),
      { numRuns: 30 },
    );
  });

  it('needs one period that all curves cover', () => {
    const [long, short] = [
      { times_d: [0, 30], moisture: [9, 8] },
      { times_d: [5, 25], moisture: [9, 8] },
    ];
    expect(commonPeriod_d([long, short])).toBe(20);
    expect(faultOf(() => dryingIndex(short, 21))).toBe('out-of-range');
    expect(faultOf(() => dryingIndex({ times_d: [0, 1], moisture: [0, 1] }, 1))).toBe('out-of-range');
    expect(faultOf(() => dryingIndex({ times_d: [1, 0], moisture: [2, 1] }, 1))).toBe('out-of-order');
    expect(faultOf(() => dryingIndex({ times_d: [0, 1], moisture: [2, Number.NaN] }, 1))).toBe('not-finite');
    expect(faultOf(() => commonPeriod_d([]))).toBe('too-few');
  });
});

describe('fitDryingModel(kind, curve)', () => {
  it.each(['exponential', 'square-root', 'constant-rate'] as const)('gives what R gives for wtloss: %s', (kind) => {
    const fit = fitDryingModel(kind, weight);
    const { estimates, errors, criterion } = shapes[kind]!;
    for (const [name, value] of Object.entries(estimates)) expectRelative(fit.estimates[name], value, 1e-6, name);
    for (const [name, value] of Object.entries(errors ?? {}))
      expectRelative(fit.standardErrors[name], value, 1e-5, name);
    expectRelative(fit.criterion, criterion, 1e-8, 'AICc');
  });

  it('takes a given equilibrium, and its uncertainty widens the rate’s error', () => {
    const known = fitDryingModel('exponential', weight, { kind: 'given', value: 80, standardUncertainty: 0 });
    expectRelative(known.estimates.rate, shapes.given!.estimates.rate!, 1e-6);
    expectRelative(known.criterion, shapes.given!.criterion, 1e-8);
    const unsure = fitDryingModel('exponential', weight, { kind: 'given', value: 80, standardUncertainty: 2 });
    const moved = (value: number) =>
      fitDryingModel('exponential', weight, { kind: 'given', value, standardUncertainty: 0 }).estimates.rate!;
    const carried = (moved(82) - moved(78)) / 2;
    expectRelative(unsure.standardErrors.rate, Math.hypot(known.standardErrors.rate!, carried), 1e-9);
  });

  it('finds two stages that are there, with an interval that holds the change', () => {
    const truth = { wet: 14, rate: 0.06, change_d: 90, dry: 3 };
    const curve = scattered((day) => dryingModels['two-stage'].moistureAt(truth, day), everyTenDays, 0.1);
    const fit = fitDryingModel('two-stage', curve);
    const interval = dryingInterval(fit, 'change_d', 0.95);
    if (typeof interval === 'string') throw new Error(interval);
    expect(interval.lower).toBeLessThan(90);
    expect(interval.upper).toBeGreaterThan(90);
    expect(interval.upper - interval.lower).toBeLessThan(60);
    expectRelative(fit.estimates.rate, 0.06, 0.05);
  });
});

describe('dryingModels', () => {
  it.each(['exponential', 'two-stage'] as const)('have the slopes that differences give: %s', (kind) => {
    const { gradient, moistureAt, parameters } = dryingModels[kind];
    const at = { wet: 12, rate: kind === 'exponential' ? 0.02 : 0.07, change_d: 40, dry: 3 };
    for (const time_d of [0, 25, 41, 90, 300]) {
      for (const name of parameters) {
        const step = 1e-6 * (at[name as keyof typeof at] || 1);
        const moved = (sign: number) =>
          moistureAt({ ...at, [name]: at[name as keyof typeof at] + sign * step }, time_d);
        const slope = (moved(1) - moved(-1)) / (2 * step);
        expect(Math.abs(gradient!(at, time_d)[name]! - slope)).toBeLessThan(1e-6 * Math.max(1, Math.abs(slope)));
      }
    }
  });
});

describe('dryingOfCurve(curve)', () => {
  it.each<[DryingModelKind, Record<string, number>]>([
    ['exponential', { wet: 12, rate: 0.015, dry: 4 }],
    ['square-root', { wet: 12, rate: 0.4 }],
    ['constant-rate', { wet: 12, rate: 0.02 }],
    ['two-stage', { wet: 14, rate: 0.06, change_d: 90, dry: 3 }],
  ])('lets AICc find the shape that made the readings: %s', (kind, truth) => {
    const moistureAt = (day: number) => dryingModels[kind].moistureAt(truth, day);
    const found = dryingOfCurve(scattered(moistureAt, everyTenDays, 0.05));
    expect(found.averaged).toContain(kind);
    expect(Math.abs(found.moistureAt(155) - moistureAt(155))).toBeLessThan(0.1);
    expectRelative(
      found.fits.reduce((sum, fit) => sum + fit.weight, 0),
      1,
      1e-12,
    );
  });

  it('reads the day of a moisture off the curve, and does not draw it on', () => {
    const found = dryingOfCurve(scattered((day) => 4 + 8 * Math.exp(-0.015 * day), everyTenDays, 0.01));
    // By hand: ln(8 / 2) / 0.015.
    expectRelative(dayOfMoisture(found, 6), Math.log(4) / 0.015, 0.01);
    expect(dayOfMoisture(found, 3)).toBeUndefined();
    expect(dayOfMoisture(found, 20)).toBe(0);
  });

  it('refuses walls that rise, stay, or scatter without falling', () => {
    const days = [0, 30, 60, 90, 120, 150];
    expect(faultOf(() => dryingOfCurve({ times_d: days, moisture: [5, 6, 7, 7.5, 8, 9] }))).toBe('not-drying');
    expect(faultOf(() => dryingOfCurve({ times_d: days, moisture: [5, 5, 5, 5, 5, 5] }))).toBe('not-drying');
    expect(faultOf(() => dryingOfCurve({ times_d: days, moisture: [5.1, 4.9, 5.2, 4.8, 5.1, 4.9] }))).toBe(
      'not-drying',
    );
    expect(faultOf(() => dryingOfCurve({ times_d: [0, 1, 2], moisture: [3, 2, 1] }))).toBe('too-few');
  });
});

describe('specimenDryingRates(specimen)', () => {
  const times_h = Array.from({ length: 40 }, (_, k) => 4 * k);
  const d1 = 0.12;
  const knick = 48;
  const d2 = 0.6;
  const water = (hours: number) =>
    hours <= knick ? 20 - d1 * hours : 20 - d1 * knick - d2 * (Math.sqrt(hours) - Math.sqrt(knick));

  it('finds D1, D2 and the knick that made the weighings', () => {
    const { moisture } = scattered(water, times_h, 0.02, 3);
    const found = specimenDryingRates({ times_h, water_kg_m2: moisture });
    expectRelative(found.d1.estimate, d1, 0.01);
    expectRelative(found.d2.estimate, d2, 0.02);
    expect(found.knick.interval_h.lower).toBeLessThan(knick);
    expect(found.knick.interval_h.upper).toBeGreaterThan(knick);
    expect(found.d1.interval.lower).toBeLessThan(found.d1.estimate);
  });

  it('refuses a specimen that takes up water or stays in one stage', () => {
    const rising = scattered((hours) => 5 + 0.1 * hours, times_h, 0.02).moisture;
    expect(faultOf(() => specimenDryingRates({ times_h, water_kg_m2: rising }))).toBe('not-drying');
    const oneStage = scattered((hours) => 20 - 0.05 * hours, times_h, 0.02).moisture;
    expect(faultOf(() => specimenDryingRates({ times_h, water_kg_m2: oneStage }))).toBe('not-drying');
    expect(faultOf(() => specimenDryingRates({ times_h: [-1], water_kg_m2: [1] }))).toBe('out-of-range');
  });
});

describe('meanCurve(readings)', () => {
  const full = ['low', 'high'].flatMap((station, s) =>
    [0, 10, 20].map((time_d) => ({ station, time_d, moisture: 10 - 4 * s - time_d / 10 })),
  );

  it('is the mean over stations, and does not jump where a station was missed', () => {
    expect(meanCurve(full)).toEqual({ times_d: [0, 10, 20], moisture: [8, 7, 6] });
    const missed = meanCurve(full.filter(({ station, time_d }) => station !== 'high' || time_d !== 10));
    missed.moisture.forEach((value, k) => {
      expectRelative(value, [8, 7, 6][k]!, 1e-10);
    });
  });

  it('refuses stations that share no visit', () => {
    const apart = [
      { station: 'low', time_d: 0, moisture: 8 },
      { station: 'high', time_d: 10, moisture: 5 },
    ];
    expect(faultOf(() => meanCurve(apart))).toBe('too-few');
    expect(faultOf(() => meanCurve([]))).toBe('too-few');
  });
});
