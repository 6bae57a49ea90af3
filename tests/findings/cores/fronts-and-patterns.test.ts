import { describe, expect, it } from 'vitest';
import { coresOfTrial } from '../../../src/findings/cores/cores-of-trial.js';
import type { CoresPart } from '../../../src/findings/cores/cores-part.js';
import { meanOfWalls } from '../../../src/findings/cores/mean-of-walls.js';
import type { Trial } from '../../../src/index.js';
import { reusedBlocks } from '../../../src/report/sections/core-blocks.js';
import { frontBlocks, waterBlocks } from '../../../src/report/sections/profile-blocks.js';
import { blocksInWords, coreTrial, origin, protocol } from '../../helpers/core-trial.js';
import { expectRelative } from '../../helpers/expect-relative.js';
import { madeTrial, wallsWithChanges } from '../../helpers/made-trial.js';

describe('meanOfWalls(values, level)', () => {
  it('is R’s t.test of one number a wall, and of one wall has no interval', () => {
    // R 4: t.test(c(740, 755, 742, 731))$conf.int
    const { interval, ...rest } = meanOfWalls([740, 755, 742, 731], 0.95) ?? {};
    expect(rest).toEqual({ mean: 742, walls: 4 });
    expectRelative(interval?.lower ?? 0, 726.247694457, 1e-11);
    expectRelative(interval?.upper ?? 0, 757.752305543, 1e-11);
    expect(meanOfWalls([740], 0.95)).toEqual({ mean: 740, walls: 1 });
    expect(meanOfWalls([], 0.95)).toBeUndefined();
  });
});

describe('the answer with reused cores against the dry mass that they had', () => {
  /** The first treated wall's core loses 0.5 g between spring 2024 and May 2025, half of it by April 2025. */
  function answerOf(lost_g: number) {
    const trial = madeTrial(wallsWithChanges([-3, -3], [0, 0]));
    const [one = '', other = '', third = '', fourth = ''] = trial.walls.map(({ wall }) => wall);
    const core = (wall: string, date: string, wet_g: number, dry_g = 50) => ({
      ...{ date, wall, station: 'a', sample: `${wall}-core`, container_g: 0, wet_g, dry_g, origin },
    });
    const cores = [
      core(one, '2024-04-01', 55),
      core(one, '2025-04-01', 54),
      core(one, '2025-05-01', 54, 50 - lost_g),
      ...[other, third, fourth].flatMap((wall, at) => [
        core(wall, '2024-04-01', 55),
        { ...core(wall, '2025-04-01', [54, 55, 55.05][at]!), sample: 'new' },
      ]),
    ];
    const own = new Map(
      trial.walls.map(({ wall, arm }) => [wall, arm === 'treated' ? 'treated' : 'untreated'] as const),
    );
    return coresOfTrial({ ...trial, protocol, readings: [], cores }, own)?.reused;
  }

  it('moves from −1.777 to −1.642 % by mass, worked by hand', () => {
    const reused = answerOf(0.5);
    // As recorded: 10 to the mean of 8 and 9.0909 %; corrected: of 54/49.75 − 1 and 9.0909 %. The other treated wall falls by 2, the
    // untreated ones rise by 0.05 on average.
    const last = 100 * (54 / 49.5 - 1);
    const difference = (april: number) => ((april + last) / 2 - 10 - 2) / 2 - 0.05;
    expectRelative(reused?.corrected?.answer?.asRecorded ?? 0, difference(8), 1e-9);
    expectRelative(reused?.corrected?.answer?.corrected ?? 0, difference(100 * (54 / 49.75 - 1)), 1e-9);
    expect(blocksInWords(reusedBlocks(reused))).toContain('would be −1.64 % by mass instead of −1.78');
  });

  it('stays where next to nothing was lost', () => {
    expect(blocksInWords(reusedBlocks(answerOf(0.001)))).toContain('the answer stays at −2.05 % by mass');
  });
});

describe('patterns over height need walls, and what matters comes from the margin', () => {
  const conditioned = { batch: 'B1', humidity_pct: 75, humidTemperature_c: 20, origin };
  /** Treated walls, each with an excess at three heights before; the hygroscopic part is 1 % everywhere. */
  function patternOf(excess: readonly (readonly number[])[], further: Partial<Trial> = {}) {
    const trial = madeTrial(
      wallsWithChanges(
        excess.map(() => -3),
        [0],
      ),
    );
    const own = new Map(
      trial.walls.map(({ wall, arm }) => [wall, arm === 'treated' ? 'treated' : 'untreated'] as const),
    );
    const names = trial.walls.filter(({ arm }) => arm === 'treated').map(({ wall }) => wall);
    const heights = [300, 700, 1100];
    const stations = names.flatMap((wall) =>
      heights.map((height_mm) => ({ station: `h${height_mm}`, wall, height_mm, origin })),
    );
    const cores = names.flatMap((wall, at) =>
      heights.map((height_mm, k) => {
        const wet_g = 50.5 + (excess[at]?.[k] ?? 0) / 2;
        const weighed = { container_g: 0, wet_g, humid_g: 50.5, dry_g: 50, batch: 'B1' };
        return { date: '2024-04-01', wall, station: `h${height_mm}`, ...weighed, origin };
      }),
    );
    const whole = { ...trial, protocol, readings: [], cores, stations, batches: [conditioned], ...further };
    return coresOfTrial(whole, own)?.hygroscopic?.profiles[0]?.pattern;
  }
  const three = [
    [4, 3.9, 3],
    [5, 5.1, 4.1],
    [4.4, 4.3, 3.3],
  ];

  it('two walls show none, three do', () => {
    expect(patternOf(three.slice(0, 2))).toBeUndefined();
    expect(patternOf(three)?.excess).toEqual({ shape: 'falling' });
  });

  it('a margin in kg/kg is turned into percent by mass before it says what matters between heights', () => {
    const level = three.map(([one = 0], at) => [one, one + [0.2, -0.2, 0.1][at]!, one - [0.1, -0.1, 0.2][at]!]);
    expect(patternOf(level)?.excess).toEqual({ shape: 'flat' });
    const outcome = { ...protocol.outcome, unit: 'kg/kg' };
    expect(patternOf(level, { protocol: { ...protocol, outcome, margin: 0.02 } })?.excess).toEqual({ shape: 'flat' });
    expect(patternOf(level, { protocol: { ...protocol, outcome, margin: 0.001 } })?.excess).toMatchObject({
      because: 'hidden-by-uncertainty',
    });
  });
});

describe('fronts and water of one wall', () => {
  const names = madeTrial(wallsWithChanges([-3], [0])).walls.map(({ wall }) => wall);
  const wall = names[0] ?? '';
  const own = new Map(names.map((name, at) => [name, at === 0 ? ('treated' as const) : ('untreated' as const)]));
  /** Cores of 50 g dry at five heights, one each, before and after. */
  function profiles(
    before: readonly number[],
    after: readonly number[],
    further: Partial<Trial> = {},
  ): CoresPart | undefined {
    const heights = [150, 400, 700, 1000, 1400].slice(0, before.length);
    const stations = heights.map((height_mm) => ({ station: `h${height_mm}`, wall, height_mm, origin }));
    const cored = (date: string, values: readonly number[]) =>
      values.map((value, at) => ({ date, wall, station: `h${heights[at]}`, wet_g: 50 + value / 2, dry_g: 50 }));
    const cores = [...cored('2024-04-01', before), ...cored('2025-04-01', after)];
    return coresOfTrial(coreTrial(cores, { stations, ...further }), own);
  }
  const falling = [10.7, 10.4, 6.4, 1.6, 1.3];

  it('tells a wall without a fall from one whose fall no curve fits, and gives the height without a curve for it', () => {
    const [front] = profiles([5.1, 4.9, 5.2, 5, 4.95], [11.2, 10.7, 11.3, 9.9, 4.3])?.fronts ?? [];
    expect(front?.notFound.before).toEqual([{ reason: { code: 'front-not-clear' }, walls: 1 }]);
    expect(front?.notFound.after).toEqual([{ reason: { code: 'front-not-fitted' }, walls: 1 }]);
    // Pooled 11.2, 11, 11, 9.9, 4.3; half way at 7.75, which lies (9.9 − 7.75)/(9.9 − 4.3) of the way from 1000 to 1400.
    expectRelative(front?.byOrder.after?.mean ?? 0, 1000 + (400 * 2.15) / 5.6, 1e-9);
    expect(front?.byOrder.before?.walls).toBe(1);
  });

  it('says of how many walls the readings do not limit the front', () => {
    const part = profiles([11.5, 10.4, 6.6, 2.5, 2.4], falling);
    expect(part?.fronts?.[0]?.open).toEqual({ before: 1, after: 0 });
    const words = blocksInWords(frontBlocks(part?.fronts));
    expect(words).toContain('do not limit inside the heights cored');
    expect(words).toContain(', before: 1 wall');
    expect(blocksInWords(frontBlocks(profiles(falling, falling)?.fronts))).not.toContain('do not limit inside');
  });

  it('knows no front from four heights, and uses a height only where it was cored before and after', () => {
    expect(profiles([10.7, 10.4, 6.4, 1.6], [10.7, 10.4, 6.4, 1.6])?.fronts).toBeUndefined();
    const walls = madeTrial(wallsWithChanges([-3], [0])).walls.map((each) => ({
      ...{ ...each, thickness_mm: 400, dryDensity_kg_m3: 1700 },
    }));
    const [water] = profiles([4, 2, 9], [3, 1], { walls })?.water ?? [];
    expectRelative(water?.means?.before.mean ?? 0, 20.4, 1e-9);
  });

  it('stores 20.4 kg/m² behind one wall, and knows it to 0.026 kg/m² by weighing, worked by hand', () => {
    const walls = madeTrial(wallsWithChanges([-3], [0])).walls.map((each) => ({
      ...{ ...each, thickness_mm: 400, dryDensity_kg_m3: 1700 },
    }));
    const [water] = profiles([4, 2], [3, 1], { walls })?.water ?? [];
    // 3 % and 2 % of 1700 kg/m³ × 0.4 m.
    expectRelative(water?.means?.before.mean ?? 0, 20.4, 1e-9);
    expectRelative(water?.means?.change.mean ?? 0, -6.8, 1e-9);
    // A weighing: 0.01/√12 g. A core: that times √(1 + (1 + u)²) over 50 g; half of each of the two, times 680 kg/m².
    const ofCore = (u: number) => (0.01 / Math.sqrt(12) / 50) * Math.hypot(1, 1 + u);
    expectRelative(water?.ofWeighing ?? 0, (680 / 2) * Math.hypot(ofCore(0.04), ofCore(0.02)), 1e-9);
    const words = blocksInWords(waterBlocks(profiles([4, 2], [3, 1], { walls })?.water));
    expect(words).toContain('at most 0.040 kg/m²');
  });
});
