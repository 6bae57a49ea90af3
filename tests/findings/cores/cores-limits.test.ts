import { describe, expect, it } from 'vitest';
import { coresOfTrial } from '../../../src/findings/cores/cores-of-trial.js';
import type { Core, Trial } from '../../../src/trial/index.js';
import { coreTrial, origin, protocol } from '../../helpers/core-trial.js';
import { madeTrial, wallsWithChanges } from '../../helpers/made-trial.js';

const names = madeTrial(wallsWithChanges([-3, -3, -3, -3], [0])).walls.map(({ wall }) => wall);
const treated = names.slice(0, 4);
const sides = new Map(names.map((name, at) => [name, at < 4 ? ('treated' as const) : ('untreated' as const)]));
const [wall = ''] = names;

const heights = [150, 400, 700, 1000, 1400];
const profile = [10.7, 10.4, 6.4, 1.6, 1.3];

/** Cores of one wall before and after at so many heights and depths, falling with height. */
function placed(heightsCored: number, depths: number) {
  const places = heights.slice(0, heightsCored).flatMap((height_mm, at) =>
    Array.from({ length: depths }, (_, k) => ({
      ...{ station: `h${height_mm} d${k}`, height_mm, depth_mm: 50 + 60 * k, value: profile[at] as number },
    })),
  );
  const stations = places.map(({ station, height_mm, depth_mm }) => ({ station, wall, height_mm, depth_mm, origin }));
  const cores = ['2024-04-01', '2025-04-01'].flatMap((date) =>
    places.map(({ station, value }) => ({ date, wall, station, wet_g: 50 + value / 2, dry_g: 50 })),
  );
  return coresOfTrial(coreTrial(cores, { stations }), sides);
}

describe('what cores must have to be shown (our own rules)', () => {
  it('a front asks for five heights', () => {
    expect(placed(5, 1)?.fronts).toHaveLength(1);
    expect(placed(4, 1)?.fronts).toBeUndefined();
  });

  it('a map asks for four heights and two depths', () => {
    expect(placed(4, 2)?.maps).toHaveLength(1);
    expect(placed(3, 2)?.maps).toBeUndefined();
    expect(placed(4, 1)?.maps).toBeUndefined();
  });

  it('a core put back weighs the same dry within 2 % at every visit', () => {
    const twice = (dry_g: number) => {
      const core = { wall, sample: 'A', station: 'a' };
      const cores: Partial<Core>[] = [
        { ...core, date: '2024-04-01', wet_g: 55, dry_g: 50 },
        { ...core, date: '2025-04-01', wet_g: 54, dry_g },
      ];
      return coresOfTrial(coreTrial(cores), sides)?.reused?.cores;
    };
    expect(twice(51)).toBe(1);
    expect(twice(49)).toBe(1);
    expect(twice(51.1)).toBeUndefined();
    expect(twice(48.9)).toBeUndefined();
  });
});

describe('what a pattern over height must have (our own rules)', () => {
  /** Excess of some walls at some heights before, over a hygroscopic part of 1 %. */
  function patternOf(excess: readonly (readonly number[])[], margin?: number) {
    const { margin: _, ...unstated } = protocol;
    const at = heights.slice(0, excess[0]?.length);
    const of = treated.slice(0, excess.length);
    const stations = of.flatMap((name) =>
      at.map((height_mm) => ({ station: `h${height_mm}`, wall: name, height_mm, origin })),
    );
    const cores = of.flatMap((name, k) =>
      at.map((height_mm, h) => {
        const wet_g = 50.5 + (excess[k]?.[h] ?? 0) / 2;
        const masses = { container_g: 0, wet_g, humid_g: 50.5, dry_g: 50, batch: 'B1' };
        return { date: '2024-04-01', wall: name, station: `h${height_mm}`, ...masses, origin };
      }),
    );
    const trial: Trial = {
      ...madeTrial(wallsWithChanges([-3, -3, -3, -3], [0])),
      ...{ readings: [], cores, stations },
      batches: [{ batch: 'B1', humidity_pct: 75, humidTemperature_c: 20, origin }],
      protocol: margin === undefined ? unstated : { ...unstated, margin },
    };
    return coresOfTrial(trial, sides)?.hygroscopic?.profiles[0]?.pattern;
  }
  const falling = [
    [4, 3.9, 3],
    [5, 5.1, 4.1],
    [4.4, 4.3, 3.3],
  ];

  it('three walls and three heights', () => {
    expect(patternOf(falling)).toBeDefined();
    expect(patternOf(falling.slice(0, 2))).toBeUndefined();
    expect(patternOf(falling.map((own) => own.slice(0, 2)))).toBeUndefined();
  });

  it('without a margin a difference of 1 % by mass between heights is what matters', () => {
    const level = (spread: number) =>
      [4, 5, 4.4].map((one, at) => [
        one,
        one + spread * ([0.2, -0.2, 0.1][at] as number),
        one - spread * ([0.1, -0.1, 0.2][at] as number),
      ]);
    const shapes = (spread: number) =>
      [undefined, 0.8, 1, 1.25].map((margin) => patternOf(level(spread), margin)?.excess.shape);
    // One spread that is level to within 1 and not to within 0.8, and one that is level to within 1.25 and not to within 1.
    const [narrow, wide] = [0.6, 0.7];
    expect(shapes(narrow)).toEqual(['flat', 'undecided', 'flat', 'flat']);
    expect(shapes(wide)).toEqual(['undecided', 'undecided', 'undecided', 'flat']);
  });
});
