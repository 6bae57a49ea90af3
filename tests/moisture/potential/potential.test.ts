import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  checkedSetup,
  electricalSeries,
  offsetOfReversals,
  type PotentialAtVisit,
  potentialOfPoint,
  signChange,
  signChangesOfWalls,
} from '../../../src/moisture/index.js';

const stated = {
  electrode: 'steel pin',
  reference: 'Cu/CuSO4 in the soil',
  polarity: 'point-minus-reference',
} as const;
const url = new URL('../../reference/moisture/moisture.json', import.meta.url);
const { electric } = JSON.parse(readFileSync(url, 'utf8')) as {
  electric: {
    time_s: number[];
    voltage_v: number[];
    current_a: number[];
    voltageUncertainty_v: number;
    currentUncertainty_a: number;
    charge_c: number;
    energy_j: number;
    chargeUncertainty: number;
    energyUncertainty: number;
  };
};
const days = ['2024-01-10', '2024-02-10', '2024-03-10', '2024-04-10', '2024-05-10'];
const visitsOf = (voltages: readonly number[], standardUncertainty_mv = 5): PotentialAtVisit[] =>
  voltages.map((voltage_mv, k) => ({ day: days[k]!, voltage_mv, standardUncertainty_mv }));

describe('checkedSetup and potentialOfPoint', () => {
  it.each([
    ['point-minus-reference', 'as-stated', 42],
    ['point-minus-reference', 'reversed', -42],
    ['reference-minus-point', 'as-stated', -42],
    ['reference-minus-point', 'reversed', 42],
  ] as const)('potentialOfPoint(42) with %s, leads %s is %d mV', (polarity, lead, expected) => {
    expect(potentialOfPoint(42, checkedSetup({ ...stated, polarity }), lead)).toBe(expected);
  });

  it.each([
    [{ ...stated, polarity: undefined }, 'unstated', 'polarity'],
    [{ ...stated, reference: ' ' }, 'unstated', 'reference'],
    [{}, 'unstated', 'electrode, reference, polarity'],
    [{ ...stated, impedance_mohm: 0 }, 'out-of-range', 'impedance'],
  ])('checkedSetup(%j) is refused: %s %s', (setup, fault, words) => {
    expect(() => checkedSetup(setup)).toThrow(
      expect.objectContaining({ fault, message: expect.stringContaining(words) }),
    );
  });
});

describe('offsetOfReversals', () => {
  it('offsetOfReversals parts voltage and offset, worked by hand', () => {
    const found = offsetOfReversals([
      { day: '2024-01-01', asStated_mv: 52, reversed_mv: -48 },
      { day: '2024-01-11', asStated_mv: -26, reversed_mv: 32 },
    ]);
    expect(found.pairs.map(({ voltage_mv, offset_mv }) => [voltage_mv, offset_mv])).toEqual([
      [50, 2],
      [-29, 3],
    ]);
    expect(found.offset_mv).toBe(2.5);
    // Student's t at one degree of freedom, 12.7062 (tables), times sqrt(0.5)/sqrt(2).
    expect(found.interval.upper - found.offset_mv).toBeCloseTo(6.3531, 4);
    expect(found.drift).toBeUndefined();
  });

  it('offsetOfReversals finds a steady drift whatever the voltages', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: -300, max: 300 }), { minLength: 4, maxLength: 9 }), (voltages) => {
        const reversals = voltages.map((voltage, k) => {
          const offset = 3 + 0.5 * k + (k % 2) * 0.1;
          const day = `2024-01-${String(k + 1).padStart(2, '0')}`;
          return { day, asStated_mv: offset + voltage, reversed_mv: offset - voltage };
        });
        const { drift } = offsetOfReversals(reversals);
        expect(drift!.drift / drift!.days).toBeGreaterThan(0.45);
        expect(drift!.drift / drift!.days).toBeLessThan(0.55);
      }),
      { numRuns: 20 },
    );
  });

  it('offsetOfReversals refuses a single pair', () => {
    expect(() => offsetOfReversals([{ day: '2024-01-01', asStated_mv: 1, reversed_mv: 1 }])).toThrow(
      expect.objectContaining({ fault: 'too-few' }),
    );
  });
});

describe('signChange', () => {
  // Five visits share 5 %: a sign is clear beyond 2.5758 × 5 mV = 12.88 mV (normal tables, 0.5 % in each tail).
  it.each([
    [
      [40, 30, -5, -20, -35],
      { kind: 'changed', from: 'positive', to: 'negative', after: '2024-02-10', by: '2024-04-10', unclearVisits: 1 },
    ],
    [[40, 30, 12.8, 20, 35], { kind: 'unchanged', sign: 'positive', unclearVisits: 1 }],
    [[40, -12.9, 30, 20, 20], { kind: 'back-and-forth', changes: 2, unclearVisits: 0 }],
    [[5, -5, 3, 0, 12], { kind: 'unclear', unclearVisits: 5 }],
  ])('signChange of %j mV', (voltages, expected) => {
    expect(signChange(visitsOf(voltages))).toEqual(expected);
  });

  it('signChange with leads swapped throughout changes at the same time the other way', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: -60, max: 60 }), { minLength: 2, maxLength: 5 }), (voltages) => {
        const [one, other] = [signChange(visitsOf(voltages)), signChange(visitsOf(voltages.map((value) => -value)))];
        expect(other.kind).toBe(one.kind);
        if (one.kind === 'changed') expect(other).toEqual({ ...one, from: one.to, to: one.from });
      }),
      { numRuns: 60 },
    );
  });

  it.each([
    [visitsOf([1]), 'too-few'],
    [visitsOf([1, 2]).reverse(), 'out-of-order'],
    [visitsOf([1, Number.NaN]), 'not-finite'],
    [visitsOf([1, 2], 0), 'out-of-range'],
  ])('signChange(%j) is refused: %s', (visits, fault) => {
    expect(() => signChange(visits)).toThrow(expect.objectContaining({ fault }));
  });

  it('signChangesOfWalls counts both sides', () => {
    const found = signChangesOfWalls([
      { wall: 'W1', side: 'treated', visits: visitsOf([40, -40]) },
      { wall: 'W2', side: 'untreated', visits: visitsOf([30, -30]) },
      { wall: 'W3', side: 'untreated', visits: visitsOf([30, 40]) },
    ]);
    expect(found.treated).toEqual({ walls: 1, changed: 1, unchanged: 0, backAndForth: 0, unclear: 0 });
    expect(found.untreated).toEqual({ walls: 2, changed: 1, unchanged: 1, backAndForth: 0, unclear: 0 });
  });
});

describe('electricalSeries', () => {
  const readings = electric.time_s.map((time_s, k) => ({
    time_s,
    voltage_v: electric.voltage_v[k]!,
    current_a: electric.current_a[k]!,
  }));
  const errors = { voltage_v: electric.voltageUncertainty_v, current_a: electric.currentUncertainty_a };

  it("R's integrate on the straight lines between the readings", () => {
    const { charge_c, energy_j } = electricalSeries(readings, errors);
    expect(charge_c.value).toBeCloseTo(electric.charge_c, 10);
    expect(energy_j.value).toBeCloseTo(electric.energy_j, 9);
    expect(charge_c.standardUncertainty).toBeCloseTo(electric.chargeUncertainty, 10);
    expect(energy_j.standardUncertainty).toBeCloseTo(electric.energyUncertainty, 9);
  });

  it('electricalSeries of 12 V and 0.3 A, worked by hand; errors of the scale do not average out', () => {
    const two = [0, 10].map((time_s) => ({ time_s, voltage_v: 12, current_a: 0.3 }));
    const found = electricalSeries(two, { voltage_v: 0, current_a: 0.003, currentScale: 0.02 });
    expect(found.resistance_ohm[0]).toMatchObject({ time_s: 0, value: 40 });
    expect(found.power_w[1]!.value).toBeCloseTo(3.6, 12);
    // Relative 1 % of the reading and 2 % of the scale.
    expect(found.power_w[1]!.standardUncertainty).toBeCloseTo(3.6 * Math.sqrt(0.0005), 12);
    // 3 C: 5 s × 0.003 A twice, independent, and 2 %.
    expect(found.charge_c.standardUncertainty).toBeCloseTo(Math.hypot(0.015 * Math.SQRT2, 0.06), 12);
  });

  it('electricalSeries keeps a time without current in the charge and gives it no resistance', () => {
    const found = electricalSeries([...readings, { time_s: 400, voltage_v: 0, current_a: 0 }], errors);
    expect(found.resistance_ohm).toHaveLength(6);
    expect(found.charge_c.value).toBeCloseTo(electric.charge_c + 10, 10);
  });

  it.each([
    ['one reading', readings.slice(0, 1), errors, 'too-few'],
    ['times out of order', [...readings].reverse(), errors, 'out-of-order'],
    ['a negative uncertainty', readings, { ...errors, voltage_v: -1 }, 'out-of-range'],
  ])('electricalSeries refuses %s', (_, series, given, fault) => {
    expect(() => electricalSeries(series, given)).toThrow(expect.objectContaining({ fault }));
  });
});
