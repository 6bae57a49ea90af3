import { describe, expect, it } from 'vitest';
import { surfaceOfWalls } from '../../../src/findings/air/surface-of-walls.js';
import type { ClimateReading, Wall } from '../../../src/trial/index.js';

const origin = { file: 'climate.csv', row: 2 };
const at = (time: string, place: string, surface_c?: number, relative_humidity_pct = 70): ClimateReading => ({
  ...{ time, place, temperature_c: 20, relative_humidity_pct, origin },
  ...(surface_c === undefined ? {} : { surface_c }),
});
const walls: readonly Wall[] = [
  { wall: 'T1', arm: 'treated', site: 'cellar 1', origin },
  { wall: 'U1', arm: 'control', site: 'cellar 2', origin },
];
const magnus = (t: number) => 611.2 * Math.exp((17.62 * t) / (243.12 + t));

describe('surfaceOfWalls(trial)', () => {
  it('summer air of 20 °C and 70 % at a wall of 13 °C wets it: −138 Pa, below the dew point all the time, worked by hand', () => {
    const climate = [at('2024-07-01', 'cellar 1', 13), at('2024-07-02', 'cellar 1', 13)];
    const [wall, ...others] = surfaceOfWalls({ walls, climate });
    expect(others).toEqual([]);
    // 1494.7 Pa over a wet wall of 13 °C less 0.7 × 2332.6 Pa in the air.
    expect(wall?.evaporation_pa).toBeCloseTo(magnus(13) - 0.7 * magnus(20), 6);
    expect(Math.round(wall?.evaporation_pa ?? 0)).toBe(-138);
    expect(wall).toMatchObject({ wall: 'T1', arm: 'treated', source: 'own', readings: 2, condensingShare: 1 });
  });

  it('half of the time on either side of the dew point counts as half', () => {
    // Over 13 °C and over 15.38 °C the pressure differs from the air’s by as much, with the sign turned.
    const above =
      (243.12 * Math.log((1.4 * magnus(20) - magnus(13)) / 611.2)) /
      (17.62 - Math.log((1.4 * magnus(20) - magnus(13)) / 611.2));
    const climate = [at('2024-07-01', 'cellar 1', 13), at('2024-07-02', 'cellar 1', above)];
    const [wall] = surfaceOfWalls({ walls, climate });
    expect(wall?.condensingShare).toBeCloseTo(0.5, 10);
    expect(wall?.evaporation_pa).toBeCloseTo(0, 8);
    expect(wall?.surface_c).toBeCloseTo((13 + above) / 2, 10);
  });

  it('counts readings with a surface temperature alone, on the days asked for, two at least', () => {
    const climate = [
      at('2024-07-01', 'cellar 1', 13),
      at('2024-07-02T18:00', 'cellar 1', 13),
      at('2024-07-03', 'cellar 1', undefined, 20),
      at('2024-07-04', 'cellar 1', 19),
      at('2024-07-01', 'cellar 2', 13),
      at('2024-07-02', 'cellar 2'),
    ];
    const of = (isCounted?: (day: string) => boolean) => surfaceOfWalls({ walls, climate }, isCounted);
    expect(of().map(({ wall, readings }) => [wall, readings])).toEqual([['T1', 3]]);
    expect(
      of((day) => ['2024-07-01', '2024-07-02'].includes(day)).map(({ condensingShare }) => condensingShare),
    ).toEqual([1]);
    expect(of((day) => day > '2024-07-03')).toEqual([]);
  });

  it('a place that is no wall’s site stands for all, the site of another wall for none but it', () => {
    const climate = [at('2024-07-01', 'yard', 13), at('2024-07-02', 'yard', 13)];
    expect(surfaceOfWalls({ walls, climate }).map(({ wall, source }) => [wall, source])).toEqual([
      ['T1', 'general'],
      ['U1', 'general'],
    ]);
    expect(surfaceOfWalls({ walls, climate: [] })).toEqual([]);
  });
});
