import { describe, expect, it } from 'vitest';
import {
  constantMass,
  type DryingRule,
  deliquescenceHumidity,
  evaporationPotential,
  hygroscopicMoisture,
  moistureReadings,
  reusedCoreMoisture,
  saltsNearCondition,
  saturationOfPorosity,
  toVolumeBasis,
  trackedChange,
} from '../../src/moisture/index.js';
import { madeTrial, soundProtocol } from '../helpers/made-trial.js';

describe('numbers worked by hand', () => {
  it('a core’s uncertainty is in the unit of the outcome: 0.00895 % by mass is 0.0000895 kg/kg', () => {
    const origin = { file: 'cores.csv', row: 2 };
    const masses = { container_g: 0, wet_g: 52.36, dry_g: 47.83 };
    const core = { date: '2024-04-10', wall: 'T1', station: 'low', origin, ...masses };
    const protocol = { ...soundProtocol, outcome: { ...soundProtocol.outcome, unit: 'kg/kg' } };
    const source = { fingerprint: '', files: [], massStep_g: 0.01 };
    const [reading] = moistureReadings(
      madeTrial([{ wall: 'T1', arm: 'treated' }], { cores: [core], protocol, source }),
    );
    expect(reading?.standardUncertainty).toBeCloseTo(0.0000894873, 10);
  });

  it('a humid sample in a tin: (59.2 − 57.83)/(57.83 − 10), and three weighings of 0.005 g', () => {
    const condition = { setpoint_rh_pct: 75, temperature_c: 20 };
    const found = hygroscopicMoisture({ container_g: 10, humid_g: 59.2, dry_g: 57.83 }, condition, 0.005);
    expect(found.value).toBeCloseTo((100 * 1.37) / 47.83, 10);
    // Slopes 1, ratio and ratio − 1 by humid, dry and tin, with the ratio 49.2/47.83.
    expect(found.standardUncertainty).toBeCloseTo((0.5 * Math.hypot(1, 49.2 / 47.83, 1.37 / 47.83)) / 47.83, 10);
  });

  it('between two dryings a loss of 0.4 g may have happened or not: 0.4/√12 g, 0.247 points of 46.83 g', () => {
    const weighings = ['2023-06-01', '2023-09-01'].map((day) => ({ day, mass_g: 50 }));
    const dryMasses = [
      { day: '2023-03-01', dry_g: 47.03 },
      { day: '2023-12-01', dry_g: 46.63 },
    ] as const;
    const core = { core: 'W01-a', weighings: [...weighings, { day: '2023-12-01', mass_g: 49 }], dryMasses };
    const [visit] = reusedCoreMoisture({ ...core, weighing_g: 1e-9 });
    const dry = 47.03 - 0.4 / 3;
    expect(visit?.moisture).toMatchObject({
      dry_g: expect.closeTo(dry, 10),
      standardUncertainty_pp: expect.closeTo((100 * (0.4 / Math.sqrt(12)) * 50) / dry ** 2, 6),
    });
  });

  it('a change as large as the tolerance reaches constant mass, a larger one does not', () => {
    const weighings = [
      { time_h: 0, mass_g: 48 },
      { time_h: 24, mass_g: 47.9 },
    ];
    const rule = (tolerance_pct: number): DryingRule => ({
      ...{
        name: 'invented',
        of: 'sample mass',
        weighings: 2,
        interval_h: 24,
        tolerance_pct,
        source: 'invented for this test',
      },
    });
    const found = constantMass({ weighings }, rule(1e-9));
    if (found.kind !== 'not-reached') throw new Error(found.kind);
    const change = Math.abs(found.lastChange_pct);
    expect(constantMass({ weighings }, rule(change)).kind).toBe('reached');
    expect(constantMass({ weighings }, rule(change * (1 - 1e-12))).kind).toBe('not-reached');
  });

  it('a salt at exactly the stated distance from the condition is near', () => {
    const humidity = deliquescenceHumidity('sodium chloride', 20);
    if (humidity === 'not known') throw new Error(humidity);
    const near = (within: number) =>
      saltsNearCondition({ setpoint_rh_pct: 74, temperature_c: 20 }, within).near.map(({ salt }) => salt);
    const apart = Math.abs(humidity - 74);
    expect(near(apart)).toContain('sodium chloride');
    expect(near(apart * (1 - 1e-12))).not.toContain('sodium chloride');
  });

  it('the density’s uncertainty is added in squares: 9.471 ± 0.1 % by mass at 1750 ± 35 kg/m³', () => {
    const content = { basis: 'dry', unit: '% by mass', value: 9.471, standardUncertainty: 0.1 } as const;
    const densities = { dryDensity_kg_m3: 1750, dryDensityUncertainty_kg_m3: 35 };
    const ratio = 1750 / 998.2;
    const { value, standardUncertainty } = toVolumeBasis(content, densities);
    expect(value).toBeCloseTo(9.471 * ratio, 10);
    expect(standardUncertainty).toBeCloseTo(Math.hypot(0.1 * ratio, 9.471 * ratio * 0.02), 10);
  });

  it('pores take up at most all of the material', () => {
    expect(saturationOfPorosity({ dryDensity_kg_m3: 998.2 }, 100).saturated_pct).toBeCloseTo(100, 10);
    expect(() => saturationOfPorosity({ dryDensity_kg_m3: 998.2 }, 100.1)).toThrow('at most 100 %');
  });

  it('a surface below the dew point throughout can condense all of the time', () => {
    const air = { temperature_c: 20, relativeHumidity_pct: 80, surface_c: 10 };
    const found = evaporationPotential([
      { time_h: 0, ...air },
      { time_h: 12, ...air },
    ]);
    expect(found.condensingShare).toBe(1);
    expect(found.mean_pa).toBeLessThan(0);
  });

  it('the interval of a correlation of five walls is Fisher’s: z ± 1.959964/√2', () => {
    const byBoth = [
      [-3.1, -14],
      [-2.2, -8],
      [-0.4, -3],
      [0.3, 1],
      [-1.6, -9],
    ] as const;
    const found = trackedChange(byBoth.map(([byCores, byMeter], at) => ({ wall: `W${at}`, byCores, byMeter })));
    const [z, half] = [Math.atanh(found.correlation), 1.959963984540054 / Math.SQRT2];
    expect(found.interval.lower).toBeCloseTo(Math.tanh(z - half), 10);
    expect(found.interval.upper).toBeCloseTo(Math.tanh(z + half), 10);
  });
});
