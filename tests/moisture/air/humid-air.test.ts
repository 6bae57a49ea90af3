import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  dewPoint,
  evaporationPotential,
  isMoistureError,
  mixingRatio,
  pressureDifference,
  saturationPressure,
  saturationTemperature,
  sourceOfPressure,
  vapourDensity,
  vapourPressure,
} from '../../../src/moisture/index.js';

const room = { temperature_c: 20, relativeHumidity_pct: 50 };
const iso = { formula: 'iso-13788' } as const;

describe('saturationPressure', () => {
  // Last column: the accurate value of IAPWS, from memory. The two before it: computed from the formulae by hand.
  it.each([
    [0, 611.2, 610.5, 611.2],
    [5, 871.7, 871.9, 872.6],
    [10, 1226.0, 1227.3, 1228],
    [15, 1701.7, 1704.4, 1706],
    [20, 2332.6, 2337.0, 2339],
    [25, 3160.1, 3165.9, 3170],
    [30, 4233.7, 4240.5, 4247],
  ])('at %f °C: magnus %f, iso-13788 %f, both within 0.35 %% of %f Pa', (t, magnus, standard, accurate) => {
    expect(saturationPressure(t)).toBeCloseTo(magnus, 1);
    expect(saturationPressure(t, iso)).toBeCloseTo(standard, 1);
    expect(Math.abs(saturationPressure(t) / accurate - 1)).toBeLessThan(0.0035);
    expect(Math.abs(saturationPressure(t, iso) / accurate - 1)).toBeLessThan(0.0035);
  });

  it('at −10 °C: 287.0 Pa over supercooled water by magnus, 259.3 Pa over ice by iso-13788, worked by hand', () => {
    expect(saturationPressure(-10)).toBeCloseTo(287.0, 1);
    expect(saturationPressure(-10, iso)).toBeCloseTo(259.3, 1);
    expect(saturationPressure(-10, { over: 'ice' })).toBeLessThan(saturationPressure(-10));
  });

  // 611.2 · exp(22.46 t/(272.62 + t)) and 610.5 · exp(21.875 t/(265.5 + t)) by hand; the last, over ice by IAPWS, from memory.
  it.each([
    [-10, 259.874, 259.333, 259.9],
    [-20, 103.261, 102.74, 103.26],
  ])('over ice at %f °C: magnus %f, iso-13788 %f, within 0.1 and 0.6 %% of %f Pa', (t, magnus, standard, accurate) => {
    expect(saturationPressure(t, { over: 'ice' })).toBeCloseTo(magnus, 2);
    expect(saturationPressure(t, iso)).toBeCloseTo(standard, 2);
    expect(Math.abs(saturationPressure(t, { over: 'ice' }) / accurate - 1)).toBeLessThan(0.001);
    expect(Math.abs(saturationPressure(t, iso) / accurate - 1)).toBeLessThan(0.006);
  });

  it.each([
    [{}, -45, 60],
    [{ over: 'ice' }, -65, 0],
    [{ formula: 'iso-13788', over: 'water' }, 0, 60],
    [{ formula: 'iso-13788', over: 'ice' }, -45, 0],
  ] as const)('%o answers from %f to %f °C and not beyond', (options, from_c, to_c) => {
    for (const t of [from_c, to_c]) {
      expect(saturationPressure(t, options)).toBeGreaterThan(0);
      expect(saturationTemperature(saturationPressure(t, options), options)).toBeCloseTo(t, 8);
    }
    for (const t of [from_c - 0.1, to_c + 0.1])
      expect(() => saturationPressure(t, options)).toThrow(/needs a temperature/);
  });

  it('names the source of every formula: WMO No. 8 over water was seen, the others are from memory', () => {
    const of = (formula: 'magnus' | 'iso-13788', over: 'water' | 'ice') => sourceOfPressure(formula, over);
    expect(of('magnus', 'water')).toEqual({ document: 'WMO No. 8, Magnus formula over water', mark: 'seen' });
    for (const over of ['water', 'ice'] as const) expect(of('iso-13788', over).mark).toBe('from memory');
    expect(of('magnus', 'ice').mark).toBe('from memory');
  });

  it('refuses absolute zero and below, kelvin, Fahrenheit, and ice above freezing', () => {
    const fault = (run: () => unknown) => {
      try {
        run();
      } catch (error) {
        return isMoistureError(error) ? `${error.fault}: ${error.message}` : error;
      }
      return 'no refusal';
    };
    expect(fault(() => saturationPressure(-300))).toMatch(/out-of-range.*absolute zero/);
    expect(fault(() => saturationPressure(293.15))).toMatch(/is it in °C/);
    expect(fault(() => saturationPressure(68))).toMatch(/is it in °C/);
    expect(fault(() => saturationPressure(5, { over: 'ice' }))).toMatch(/to 0 °C/);
    expect(fault(() => saturationPressure(Number.NaN))).toMatch(/not-finite/);
  });
});

describe('saturationTemperature', () => {
  const curves = [{ over: 'water' }, { over: 'ice' }, iso] as const;

  it('always undoes saturationPressure', () => {
    fc.assert(
      fc.property(fc.double({ min: -45, max: 60, noNaN: true }), fc.constantFrom(...curves), (t, options) => {
        if ('over' in options && options.over === 'ice' && t > 0) return;
        expect(saturationTemperature(saturationPressure(t, options), options)).toBeCloseTo(t, 8);
      }),
    );
  });

  it('refuses no pressure at all, and more than 60 °C has', () => {
    expect(() => saturationTemperature(0)).toThrow(/above 0 Pa/);
    expect(() => saturationTemperature(1e6)).toThrow(/between -45 and 60/);
    expect(() => saturationTemperature(1e12)).toThrow(/between -45 and 60/);
  });
});

describe('vapourPressure, dewPoint, vapourDensity, mixingRatio', () => {
  it('give 1166.3 Pa, 9.255 °C (9.269 by iso-13788), 8.621 g/m³ and 7.243 g/kg at 20 °C and 50 %, worked by hand', () => {
    expect(vapourPressure(room)).toBeCloseTo(1166.3, 1);
    expect(dewPoint(room)).toBeCloseTo(9.255, 3);
    expect(dewPoint(room, iso)).toBeCloseTo(9.269, 3);
    expect(vapourDensity(room)).toBeCloseTo(8.621, 3);
    expect(mixingRatio(room)).toBeCloseTo(7.243, 3);
  });

  it.each([
    [20, 65, 13.217, 11.207],
    [10, 80, 6.706, 7.506],
    [25, 60, 16.693, 13.78],
  ])(
    'at %f °C and %f %%: dew point %f °C, %f g/m³, worked by hand',
    (temperature_c, relativeHumidity_pct, dew, density) => {
      const air = { temperature_c, relativeHumidity_pct };
      expect(dewPoint(air)).toBeCloseTo(dew, 3);
      expect(vapourDensity(air)).toBeCloseTo(density, 3);
    },
  );

  it('dewPoint is never above the temperature, and equal to it at 100 %', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -10, max: 50, noNaN: true }),
        fc.double({ min: 10, max: 100, noNaN: true }),
        (temperature_c, relativeHumidity_pct) => {
          expect(dewPoint({ temperature_c, relativeHumidity_pct })).toBeLessThanOrEqual(temperature_c + 1e-9);
          expect(dewPoint({ temperature_c, relativeHumidity_pct: 100 })).toBeCloseTo(temperature_c, 8);
        },
      ),
    );
  });

  it.each([0, -5, 105.1, 5000, Number.NaN])('refuse a relative humidity of %f percent', (relativeHumidity_pct) => {
    const air = { temperature_c: 20, relativeHumidity_pct };
    for (const of of [vapourPressure, dewPoint, vapourDensity]) expect(() => of(air)).toThrow(/relative humidity/);
    expect(() => mixingRatio(air)).toThrow(/relative humidity/);
  });

  it.each([100.1, 102.3, 105])('count %f percent, as a hygrometer may show it in saturated air, as 100', (shown) => {
    const [air, saturated] = [shown, 100].map((relativeHumidity_pct) => ({ temperature_c: 12, relativeHumidity_pct }));
    if (air === undefined || saturated === undefined) throw new Error('no air');
    for (const of of [vapourPressure, dewPoint, vapourDensity, mixingRatio]) expect(of(air)).toBe(of(saturated));
    expect(dewPoint(air)).toBeCloseTo(12, 10);
    expect(pressureDifference(12, air)).toBe(0);
    const readings = [0, 10].map((time_h) => ({ time_h, ...(time_h === 0 ? air : saturated) }));
    expect(evaporationPotential(readings)).toMatchObject({ mean_pa: 0, aboveSaturation: 1 });
  });

  it('mixingRatio refuses an air pressure in hectopascal', () => {
    expect(() => mixingRatio(room, 1013.25)).toThrow(/in pascal/);
  });
});

describe('pressureDifference', () => {
  it('is what the air lacks where wall and air are alike, and negative below the dew point', () => {
    expect(pressureDifference(20, room)).toBeCloseTo(1166.3, 1);
    expect(pressureDifference(dewPoint(room), room)).toBeCloseTo(0, 8);
    expect(pressureDifference(5, room)).toBeLessThan(0);
  });
});

describe('evaporationPotential', () => {
  it('is the plain difference for steady air, however uneven the times', () => {
    const readings = [0, 1, 50].map((time_h) => ({ time_h, ...room, surface_c: 20 }));
    expect(evaporationPotential(readings)).toEqual({
      mean_pa: expect.closeTo(1166.3, 1),
      condensingShare: 0,
      hours: 50,
      readings: 3,
      surfaceAssumed: 0,
      aboveSaturation: 0,
    });
  });

  it('weights by time, and counts when the wall was below the dew point, worked by hand', () => {
    const saturated = { temperature_c: 20, relativeHumidity_pct: 100 };
    const dry = pressureDifference(20, room);
    const { mean_pa, surfaceAssumed } = evaporationPotential([
      { time_h: 0, ...saturated },
      { time_h: 30, ...saturated },
      { time_h: 40, ...room },
    ]);
    expect(mean_pa).toBeCloseTo((10 * dry) / 2 / 40, 8);
    expect(surfaceAssumed).toBe(3);
    const below = pressureDifference(5, room);
    const crossing = evaporationPotential([
      { time_h: 0, ...room, surface_c: 5 },
      { time_h: 10, ...room, surface_c: 20 },
    ]);
    expect(crossing.condensingShare).toBeCloseTo(-below / (dry - below), 10);
  });

  it('refuses one reading, and times that do not increase', () => {
    expect(() => evaporationPotential([{ time_h: 0, ...room }])).toThrow(/at least 2/);
    expect(() =>
      evaporationPotential([
        { time_h: 1, ...room },
        { time_h: 1, ...room },
      ]),
    ).toThrow(/order of time/);
  });
});
