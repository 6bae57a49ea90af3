import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { pearson, spearman } from '../../../../src/statistics/index.js';
import { expectRelative } from '../../../helpers/expect-relative.js';

interface Case {
  readonly x: number[];
  readonly y: number[];
  readonly pearson: number;
  readonly limits: [number, number];
  readonly pValue: number;
  readonly spearman: number;
  readonly rankLimits: [number, number];
  readonly rankPValue: number;
}

const file = join(import.meta.dirname, '../../../reference/association/association.json');
const { correlations }: { correlations: Case[] } = JSON.parse(readFileSync(file, 'utf8'));

describe('against cor.test of R', () => {
  it.each(correlations.map((one) => [one.x.length, one] as const))('%d pairs', (_, one) => {
    const { estimate, interval, pValue } = pearson(one.x, one.y);
    expectRelative(estimate, one.pearson, 1e-12, 'pearson');
    expectRelative(interval.lower, one.limits[0], 1e-11, 'lower');
    expectRelative(interval.upper, one.limits[1], 1e-11, 'upper');
    expectRelative(pValue, one.pValue, 1e-10, 'pValue');
    const ranks = spearman(one.x, one.y);
    expectRelative(ranks.estimate, one.spearman, 1e-12, 'spearman');
    expectRelative(ranks.interval.lower, one.rankLimits[0], 1e-11, 'lower');
    expectRelative(ranks.interval.upper, one.rankLimits[1], 1e-11, 'upper');
    expectRelative(ranks.pValue, one.rankPValue, 1e-10, 'rankPValue');
  });
});

describe('a correlation', () => {
  it('is the same in other units, and of huge and tiny values', () => {
    const [x, y] = [
      [4, 6, 9, 12, 7],
      [4.4, 5.8, 9.1, 8.2, 6.9],
    ];
    const { estimate } = pearson(x, y);
    for (const scale of [-1e300, 1e-300, 1e150])
      expectRelative(
        pearson(
          x.map((one) => one * scale),
          y,
        ).estimate,
        Math.sign(scale) * estimate,
        1e-12,
        `${scale}`,
      );
  });

  it('is refused where it has no meaning', () => {
    expect(() => pearson([1, 2, 3], [1, 2, 4])).toThrow(expect.objectContaining({ fault: 'too-few' }));
    expect(() => pearson([1, 2, 3, 4], [1, 2, 3])).toThrow(expect.objectContaining({ fault: 'too-few' }));
    expect(() => pearson([1, 2, 3, 4], [1, 2, 3, 5, 6])).toThrow(expect.objectContaining({ fault: 'lengths-differ' }));
    expect(() => spearman([1, 2, 3, 4], [7, 7, 7, 7])).toThrow(expect.objectContaining({ fault: 'no-variation' }));
    expect(() => spearman([1, 2, 3, 4], [2, 4, 6, 9])).toThrow(expect.objectContaining({ fault: 'no-variation' }));
    expect(() => pearson([1, 2, 3, Number.NaN], [2, 4, 6, 9])).toThrow(
      expect.objectContaining({ fault: 'not-finite' }),
    );
  });
});
