import { describe, expect, it } from 'vitest';
import {
  type DeliquescentSalt,
  deliquescenceHumidity,
  saltsNearCondition,
  sourceOfDeliquescence,
} from '../../../src/moisture/index.js';

/** Where it is known. */
function at(salt: DeliquescentSalt, temperature_c: number): number {
  const humidity_pct = deliquescenceHumidity(salt, temperature_c);
  if (humidity_pct === 'not known') throw new Error(`${salt} at ${temperature_c} °C`);
  return humidity_pct;
}

describe('deliquescenceHumidity(salt, temperature_c)', () => {
  // Greenspan 1977, table of values every 5 °C from 0 °C, the last digits cut or rounded (from memory). Those of potassium sulfate, of
  // magnesium and potassium chloride and of potassium carbonate between 5 and 25 °C also stand on a public page (seen, to 0.1).
  it.each([
    ['magnesium chloride', 0, [33.66, 33.6, 33.47, 33.3, 33.07, 32.78, 32.44, 32.05, 31.6, 31.1, 30.54]],
    ['potassium carbonate', 0, [43.13, 43.13, 43.14, 43.15, 43.16, 43.16, 43.17]],
    ['magnesium nitrate', 0, [60.35, 58.86, 57.36, 55.87, 54.38, 52.89, 51.4, 49.91, 48.42, 46.93, 45.44]],
    ['sodium nitrate', 5, [78.57, 77.53, 76.46, 75.36, 74.25, 73.14, 72.06, 71.0, 69.99, 69.04]],
    ['sodium chloride', 0, [75.51, 75.65, 75.67, 75.61, 75.47, 75.29, 75.09, 74.87, 74.68, 74.52, 74.43]],
    ['ammonium sulfate', 0, [82.77, 82.42, 82.06, 81.7, 81.34, 80.99, 80.63, 80.27, 79.91, 79.56, 79.2]],
    ['potassium chloride', 0, [88.61, 87.67, 86.77, 85.92, 85.11, 84.34, 83.62, 82.95, 82.32, 81.74, 81.2]],
    ['potassium nitrate', 0, [96.33, 96.27, 95.96, 95.41, 94.62, 93.58, 92.31, 90.79, 89.03, 87.03, 84.78]],
    ['potassium sulfate', 0, [98.77, 98.48, 98.18, 97.89, 97.59, 97.3, 97.0, 96.71, 96.41, 96.12, 95.82]],
  ] as const)('of %s meets Greenspan’s table from %f °C', (salt, from_c, humidities) => {
    humidities.forEach((humidity_pct, step) => {
      expect(Math.abs(at(salt, from_c + 5 * step) - humidity_pct)).toBeLessThan(0.015);
    });
  });

  // c₀ + 30 c₁ + 900 c₂ + 27 000 c₃ of the coefficients, worked by hand to four decimals.
  it.each([
    ['magnesium chloride', 32.4485],
    ['potassium carbonate', 43.1758],
    ['magnesium nitrate', 51.401],
    ['sodium nitrate', 73.1444],
    ['sodium chloride', 75.0912],
    ['ammonium sulfate', 80.629],
    ['potassium chloride', 83.6285],
    ['potassium nitrate', 92.3126],
    ['potassium sulfate', 97.0077],
  ] as const)('of %s at 30 °C is %f %%, worked by hand', (salt, humidity_pct) => {
    expect(at(salt, 30)).toBeCloseTo(humidity_pct, 4);
  });

  it('of ammonium nitrate is 65 % at 20, 61.8 % at 25 and 59.4 % at 30 °C within half a point (three public pages), 61.87 % by hand', () => {
    expect(Math.abs(at('ammonium nitrate', 20) - 65)).toBeLessThan(0.5);
    expect(Math.abs(at('ammonium nitrate', 30) - 59.4)).toBeLessThan(0.5);
    // 3.54 · exp(853/298.15)
    expect(at('ammonium nitrate', 25)).toBeCloseTo(61.87, 2);
    expect(at('ammonium nitrate', 10)).toBeCloseTo(72.0, 1);
  });

  // Steiger, Charola and Sterflinger 2014, as a public encyclopaedia of salts quotes them (seen), every 10 °C.
  it.each([
    ['calcium chloride', [44.3, 39.4, 33.3, 21.6, 18.4, 16.3]],
    ['calcium nitrate', [63.8, 58.8, 53.1, 46.0, 35.5]],
  ] as const)('of %s meets the published values, and lies on a line half way between', (salt, humidities) => {
    humidities.forEach((humidity_pct, step) => {
      expect(at(salt, 10 * step)).toBeCloseTo(humidity_pct, 10);
      const next = humidities[step + 1];
      if (next !== undefined) expect(at(salt, 10 * step + 5)).toBeCloseTo((humidity_pct + next) / 2, 10);
    });
  });

  /**
   * Water activity over a solution of sodium sulfate, in percent: Pitzer's equations with the parameters of Pitzer and Mayorga 1973 at 25 °C
   * (from memory). Molality of the saturated solution by handbooks (from memory), at 20 °C as the encyclopaedia has it (seen).
   */
  function overSodiumSulfate(molality: number): number {
    const ionic = 3 * molality;
    const debyeHueckel = (-0.392 * Math.sqrt(ionic)) / (1 + 1.2 * Math.sqrt(ionic));
    const second = 0.01958 + 1.113 * Math.exp(-2 * Math.sqrt(ionic));
    const osmotic = 1 + 2 * debyeHueckel + (4 / 3) * molality * second + ((2 * 2 ** 1.5) / 3) * 0.00497 * molality ** 2;
    return 100 * Math.exp(-0.018015 * 3 * molality * osmotic);
  }

  it.each([
    [0, 0.33],
    [10, 0.65],
    [20, 1.353],
    [25, 1.97],
    [30, 2.88],
    [32.4, 3.5],
    [40, 3.43],
    [50, 3.29],
  ])(
    'of sodium sulfate at %f °C, %f mol/kg, is within 0.15 points of Pitzer’s equations',
    (temperature_c, molality) => {
      expect(Math.abs(at('sodium sulfate', temperature_c) - overSodiumSulfate(molality))).toBeLessThan(0.15);
    },
  );

  it('of sodium sulfate is 95.6 % at 20 °C (seen), 86.6 % without its water by the same equations at 3.706 mol/kg (seen)', () => {
    expect(at('sodium sulfate', 20)).toBe(95.6);
    expect(Math.abs(overSodiumSulfate(3.706) - 86.6)).toBeLessThan(0.2);
    const points = [
      [0, 98.7],
      [10, 97.7],
      [25, 93.6],
      [30, 90.3],
      [32.4, 87.7],
      [40, 88],
      [50, 88.6],
    ] as const;
    for (const [temperature_c, humidity_pct] of points)
      expect(at('sodium sulfate', temperature_c)).toBeCloseTo(humidity_pct, 10);
  });

  it('of magnesium sulfate is 91.3 % at 20 °C, within 2 points of an older table’s 90.1 % (both seen) and of Pitzer’s equations to 22 °C', () => {
    // Pitzer and Mayorga 1974 at 25 °C: 0.221, 3.343, −37.23, 0.025 (from memory). 2.839 mol/kg at 20 °C (seen); 2.77 and 2.91 at 18 and 22 °C (from memory).
    const overSolution = (molality: number) => {
      const root = Math.sqrt(4 * molality);
      const debyeHueckel = (-0.392 * root) / (1 + 1.2 * root);
      const second = 0.221 + 3.343 * Math.exp(-1.4 * root) - 37.23 * Math.exp(-12 * root);
      const osmotic = 1 + 4 * debyeHueckel + molality * second + 0.025 * molality ** 2;
      return 100 * Math.exp(-0.018015 * 2 * molality * osmotic);
    };
    expect(at('magnesium sulfate', 20)).toBe(91.3);
    expect(Math.abs(at('magnesium sulfate', 20) - 90.1)).toBeLessThan(2);
    for (const [temperature_c, molality] of [
      [18, 2.77],
      [20, 2.839],
      [22, 2.91],
    ] as const)
      expect(Math.abs(at('magnesium sulfate', temperature_c) - overSolution(molality))).toBeLessThan(0.7);
  });

  // Handbook table at 25 °C in whole percent (seen), which rests on other data too.
  it.each([
    ['calcium chloride', 29],
    ['magnesium chloride', 33],
    ['calcium nitrate', 51],
    ['magnesium nitrate', 53],
    ['ammonium nitrate', 62],
    ['sodium nitrate', 74],
    ['sodium chloride', 75],
    ['ammonium sulfate', 81],
    ['potassium chloride', 84],
    ['potassium nitrate', 92],
    ['potassium sulfate', 97],
  ] as const)('of %s at 25 °C lies within 2 points of the handbook’s %f %%', (salt, humidity_pct) => {
    expect(Math.abs(at(salt, 25) - humidity_pct)).toBeLessThan(2);
  });

  it.each([
    ['calcium chloride', 0, 50],
    ['magnesium chloride', 0, 50],
    ['potassium carbonate', 0, 30],
    ['calcium nitrate', 0, 40],
    ['magnesium nitrate', 0, 50],
    ['ammonium nitrate', 10, 40],
    ['sodium nitrate', 5, 50],
    ['sodium chloride', 0, 50],
    ['ammonium sulfate', 0, 50],
    ['potassium chloride', 0, 50],
    ['magnesium sulfate', 18, 22],
    ['sodium sulfate', 0, 50],
    ['potassium nitrate', 0, 50],
    ['potassium sulfate', 0, 50],
  ] as const)('of %s is known from %f to %f °C and not known beyond, with its source', (salt, from_c, to_c) => {
    for (const temperature_c of [from_c, to_c]) expect(Number.isFinite(at(salt, temperature_c))).toBe(true);
    for (const temperature_c of [from_c - 0.1, to_c + 0.1, -300])
      expect(deliquescenceHumidity(salt, temperature_c)).toBe('not known');
    expect(sourceOfDeliquescence(salt).document).not.toBe('');
  });

  it('marks the values that were not seen, and refuses a temperature that is none', () => {
    const marked = (['magnesium nitrate', 'sodium nitrate', 'ammonium sulfate', 'sodium sulfate'] as const).map(
      (salt) => sourceOfDeliquescence(salt).mark,
    );
    expect(marked).toEqual(Array(4).fill('from memory'));
    expect(sourceOfDeliquescence('sodium chloride')).toEqual({
      document: expect.stringContaining('Greenspan 1977'),
      mark: 'seen',
    });
    expect(() => deliquescenceHumidity('sodium chloride', Number.NaN)).toThrow(/finite temperature/);
  });
});

describe('saltsNearCondition(condition, within_pp)', () => {
  const near = (setpoint_rh_pct: number, temperature_c: number, within_pp?: number) =>
    saltsNearCondition({ setpoint_rh_pct, temperature_c }, within_pp).near.map(({ salt }) => salt);

  it('finds the baths of potassium nitrate at 94 % and 23 °C and of potassium chloride at 85 % and 26 °C', () => {
    expect(near(94, 23)).toContain('potassium nitrate');
    expect(near(85, 26)).toEqual(['potassium chloride']);
  });

  it('names common salt and sodium nitrate at 75 % and nothing at 71 %, two points away being near and more not', () => {
    expect(near(75, 20)).toEqual(['sodium nitrate', 'sodium chloride']);
    expect(near(71, 20)).toEqual([]);
    // Potassium chloride dissolves at 85.112 % at 20 °C.
    expect([near(83.115, 20).includes('potassium chloride'), near(83.108, 20).includes('potassium chloride')]).toEqual([
      ...[true, false],
    ]);
    expect(near(84.7, 20, 0.3)).toEqual([]);
    expect(near(84.9, 20, 0.3)).toEqual(['potassium chloride']);
  });

  it('goes by the humidity that was measured', () => {
    const measured = { setpoint_rh_pct: 65, measured_rh_pct: 75, temperature_c: 20 };
    expect(saltsNearCondition(measured).near.map(({ salt }) => salt)).toEqual(['sodium nitrate', 'sodium chloride']);
  });

  it('says of which salts nothing is known at the temperature', () => {
    expect(saltsNearCondition({ setpoint_rh_pct: 75, temperature_c: 20 }).notKnown).toEqual([]);
    expect(saltsNearCondition({ setpoint_rh_pct: 75, temperature_c: 45 }).notKnown).toEqual([
      ...['potassium carbonate', 'calcium nitrate', 'ammonium nitrate', 'magnesium sulfate'],
    ]);
    expect(saltsNearCondition({ setpoint_rh_pct: 75, temperature_c: 55 }).notKnown).toHaveLength(14);
    expect(() => saltsNearCondition({ setpoint_rh_pct: 75, temperature_c: 20 }, -1)).toThrow(/distance/);
  });
});
