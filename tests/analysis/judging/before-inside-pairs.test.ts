import { describe, expect, it } from 'vitest';
import { beforeInsidePairs, comparisonDesign, type WallChange } from '../../../src/analysis/index.js';
import { mean, normalDraws, paired, randomStream, standardDeviation, welch } from '../../../src/statistics/index.js';

function designOf(treated: readonly number[], untreated: readonly number[], blockOf?: (index: number) => string) {
  const of = (side: 'treated' | 'untreated', values: readonly number[]): WallChange[] =>
    values.map((before, index) => ({
      ...{ wall: `${side}${index}`, arm: side, side, block: blockOf?.(index) ?? '', before, after: before },
      ...{ change: 0, places: 'same' as const, stations: 1 },
    }));
  return comparisonDesign([...of('treated', treated), ...of('untreated', untreated)]).design;
}

const treated = [10.4, 7.3, 4.6, 13.5];
const untreated = [10, 7, 4, 13.1];

describe('beforeInsidePairs', () => {
  it('pairs: mean over standard deviation of the pair differences, Student’s p; walls differ far more', () => {
    const found = beforeInsidePairs(designOf(treated, untreated, (index) => `${index}`));
    const differences = treated.map((value, at) => value - (untreated[at] ?? 0));
    expect(found?.standardised).toBeCloseTo(mean(differences) / standardDeviation(differences), 10);
    expect(found?.pValue).toBeCloseTo(paired(differences).pValue, 12);
    expect(found).toMatchObject({ of: 'pairs', units: 4, byChance: 0.5 });
    const plain = beforeInsidePairs(designOf(treated, untreated));
    expect(plain).toMatchObject({ of: 'walls', units: 8 });
    expect(Math.abs(plain?.standardised ?? 1)).toBeLessThan(0.2);
    expect(plain?.pValue).toBeCloseTo(welch(treated, untreated).pValue, 12);
  });

  it('blocks of two and two: the spread inside blocks by hand', () => {
    const found = beforeInsidePairs(designOf([10, 11, 20, 22], [9, 8, 19, 17], (index) => `${Math.floor(index / 2)}`));
    // Block differences 2 and 3; residual squares 3.25 + ... by hand: 0.5 + 0.5 + 2 + 2 inside cells and 2·0.25 between, on 5 degrees.
    expect(found?.difference).toBeCloseTo(2.5, 12);
    expect(found?.spread).toBeCloseTo(Math.sqrt(5.5 / 5), 12);
    expect(found?.byChance).toBeCloseTo(Math.sqrt(1 / 2), 12);
  });

  it('two walls and three without blocks: the pooled spread by hand', () => {
    // 10 and 12 against 5, 8 and 11: squares of 2 and 18 about the means, on 3 degrees of freedom.
    const found = beforeInsidePairs(designOf([10, 12], [5, 8, 11]));
    expect(found).toMatchObject({ of: 'walls', units: 5 });
    expect(found?.difference).toBeCloseTo(3, 12);
    expect(found?.spread).toBeCloseTo(Math.sqrt(20 / 3), 12);
    expect(found?.standardised).toBeCloseTo(3 / Math.sqrt(20 / 3), 12);
    expect(found?.byChance).toBeCloseTo(Math.sqrt(1 / 2 + 1 / 3), 12);
  });

  it('is nothing with one wall a side, and with blocks of one arm each', () => {
    expect(beforeInsidePairs(designOf([1], [2, 3]))).toBeUndefined();
    const confounded = comparisonDesign(
      designOf(treated, untreated).walls.map((wall) => ({ ...wall, block: wall.side })),
    ).design;
    expect(beforeInsidePairs(confounded)).toBeUndefined();
  });

  it('4 + 4 walls at random: p below 0.01 in about 1 % of 2,000 seeded trials, where a limit of 1 spread would catch over 15 %', () => {
    const draws = normalDraws(randomStream(11), 8 * 2000);
    let [unlikely, apart] = [0, 0];
    for (let round = 0; round < 2000; round++) {
      const values = [...draws.slice(8 * round, 8 * round + 8)];
      const found = beforeInsidePairs(designOf(values.slice(0, 4), values.slice(4)));
      if ((found?.pValue ?? 1) < 0.01) unlikely++;
      if (Math.abs(found?.standardised ?? 0) >= 1) apart++;
    }
    expect(unlikely).toBeLessThan(30);
    expect(apart).toBeGreaterThan(300);
  });

  it('8 pairs whose wetter wall is treated: p below 0.05 in at least 95 % of 400 seeded trials, below 0.01 in over half', () => {
    const draws = normalDraws(randomStream(12), 24 * 400);
    let [found, surely] = [0, 0];
    for (let round = 0; round < 400; round++) {
      const own = draws.subarray(24 * round, 24 * round + 24);
      const walls = Array.from({ length: 8 }, (_, pair) => {
        const level = 8 + 3 * (own[pair] ?? 0);
        return [level + (own[8 + pair] ?? 0), level + (own[16 + pair] ?? 0)].sort((a, b) => b - a) as [number, number];
      });
      const design = designOf(
        walls.map(([wet]) => wet),
        walls.map(([, dry]) => dry),
        (index) => `${index}`,
      );
      const { pValue = 1 } = beforeInsidePairs(design) ?? {};
      if (pValue < 0.05) found++;
      if (pValue < 0.01) surely++;
    }
    expect(found).toBeGreaterThanOrEqual(380);
    expect(surely).toBeGreaterThan(200);
  });
});
