import { describe, expect, it } from 'vitest';
import {
  type CalibrationPair,
  calibrateMeter,
  calibrationPairs,
  isSameCondition,
  moistureReadings,
  repeatsWithinDays,
  toVolumeBasis,
} from '../../../src/moisture/index.js';
import { addDays } from '../../../src/plain/days.js';
import { madeTrial } from '../../helpers/made-trial.js';

/** Two visits to each of some places of four walls, a number of days apart; index = 10 + 5 × moisture, with errors. */
function visited(places: number, apart_d: number): CalibrationPair[] {
  return Array.from({ length: places }, (_, place) => {
    const moisture = 3 + place * 0.7;
    return [0, apart_d].map((days, visit): CalibrationPair => {
      const error = (visit === 0 ? 1 : -1) * (0.1 + 0.05 * (place % 3));
      return {
        ...{ wall: `W${place % 4}`, station: `s${place}`, material: 'brick', daysApart: 0 },
        day: addDays('2024-03-01', days),
        moisture: moisture + error,
        reading: 10 + 5 * moisture + 8 * error * (place % 2 === 0 ? 1 : -1),
      };
    });
  }).flat();
}

describe('the limits of a calibration (our conventions)', () => {
  it('take visits up to 100 days apart as repeats', () => {
    expect(repeatsWithinDays).toBe(100);
    expect(calibrateMeter(visited(12, 100)).ratio.from).toBe('repeats');
    expect(calibrateMeter(visited(12, 101)).ratio.from).toBe('assumed');
  });

  it('need ten repeats, and take the cores as 100 times better in variance without', () => {
    expect(calibrateMeter(visited(10, 30)).ratio.from).toBe('repeats');
    const pairs = visited(9, 30);
    const { ratio } = calibrateMeter(pairs);
    expect(ratio.from).toBe('assumed');
    const range = (values: readonly number[]) => Math.max(...values) - Math.min(...values);
    const slope = range(pairs.map(({ reading }) => reading)) / range(pairs.map(({ moisture }) => moisture));
    expect(ratio.errorRatio).toBeCloseTo(100 * slope ** 2, 9);
  });

  it('need three pairs of three walls', () => {
    const three = visited(4, 30).filter(({ wall, day }) => wall !== 'W3' && day === '2024-03-01');
    expect(three).toHaveLength(3);
    expect(calibrateMeter(three).walls).toBe(3);
    expect(() => calibrateMeter(three.slice(1))).toThrow(/at least 3 pairs/);
    expect(() => calibrateMeter(visited(2, 30))).toThrow(/at least 3 walls/);
  });

  it('set a reading up to three days from a core beside it', () => {
    const at = (date: string) => {
      const trial = madeTrial([{ wall: 'T1', arm: 'treated', before: 8 }]);
      const [core] = trial.readings;
      if (core === undefined) throw new Error('no core');
      // The core is of 10 April.
      const readings = [...trial.readings, { ...core, date, instrument: 'mw' }];
      return calibrationPairs(trial, moistureReadings({ ...trial, readings }), { instrument: 'mw' }).pairs.length;
    };
    expect(['2024-04-13', '2024-04-07', '2024-04-14', '2024-04-06'].map(at)).toEqual([1, 1, 0, 0]);
  });
});

describe('other constants of moisture', () => {
  it('water weighs 998.2 kg/m³ at 20 °C (from memory): 10 % of a material as dense is 10 % by volume', () => {
    const of = (dryDensity_kg_m3: number) =>
      toVolumeBasis({ basis: 'dry', unit: '% by mass', value: 10 }, { dryDensity_kg_m3 }).value;
    expect(of(998.2)).toBeCloseTo(10, 12);
  });

  it('conditions are the same within half a point of humidity and 2 °C, our own rule', () => {
    const air = (measured_rh_pct: number, temperature_c: number) => ({
      setpoint_rh_pct: 75,
      measured_rh_pct,
      temperature_c,
    });
    expect(isSameCondition(air(75, 20), air(75.5, 20))).toBe(true);
    expect(isSameCondition(air(75, 20), air(75.6, 20))).toBe(false);
    expect(isSameCondition(air(75, 20), air(75, 22))).toBe(true);
    expect(isSameCondition(air(75, 20), air(75, 22.1))).toBe(false);
  });
});
