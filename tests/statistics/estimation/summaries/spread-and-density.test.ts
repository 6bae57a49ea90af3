import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  compensatedSum,
  interquartileRange,
  kernelDensity,
  median,
  medianAbsoluteDeviation,
  quantile,
} from '../../../../src/statistics/index.js';
import { expectRelative } from '../../../helpers/expect-relative.js';

interface Case {
  readonly name: string;
  readonly values: number[];
  readonly interquartileRange: number;
  readonly medianAbsoluteDeviation: number;
  readonly bandwidth: number;
  readonly at: number[];
  readonly density: number[];
}

const file = join(import.meta.dirname, '../../../reference/summaries/summaries.json');
const { cases }: { cases: Case[] } = JSON.parse(readFileSync(file, 'utf8'));

describe('spread and density, against R', () => {
  it.each(cases.map((one) => [one.name, one] as const))('%s', (_, one) => {
    expectRelative(interquartileRange(one.values), one.interquartileRange, 1e-13, 'range');
    expectRelative(medianAbsoluteDeviation(one.values), one.medianAbsoluteDeviation, 1e-13, 'deviation');
    const { bandwidth, at } = kernelDensity(one.values);
    expectRelative(bandwidth, one.bandwidth, 1e-12, 'bandwidth');
    for (const [index, point] of one.at.entries())
      expectRelative(at(point), one.density[index] ?? 0, 1e-11, `density at ${point}`);
  });

  it('a density of values that do not vary is refused, as is one at no number', () => {
    expect(() => kernelDensity([3])).toThrow(expect.objectContaining({ fault: 'too-few' }));
    expect(() => kernelDensity([1, 3, 3, 3, 3, 9])).toThrow(expect.objectContaining({ fault: 'no-variation' }));
    expect(() => kernelDensity([1, 2, 3]).at(Number.NaN)).toThrow(expect.objectContaining({ fault: 'not-finite' }));
    expect(() => medianAbsoluteDeviation([1, Number.NaN, 3])).toThrow(expect.objectContaining({ fault: 'not-finite' }));
  });
});

/** As they were computed here before, bit by bit. */
describe('the package behind sums and medians', () => {
  const number = fc.double({ noNaN: true, noDefaultInfinity: true, min: -1e200, max: 1e200 });

  it('gives the middle of the sorted values', () => {
    fc.assert(
      fc.property(fc.array(number, { minLength: 1, maxLength: 60 }), (values) => {
        const sorted = values.toSorted((one, other) => one - other);
        const middle = sorted.length >> 1;
        const upper = sorted[middle] ?? 0;
        expect(median(values) + 0).toBe(
          (sorted.length % 2 === 1 ? upper : ((sorted[middle - 1] ?? 0) + upper) / 2) + 0,
        );
        const position = 0.3 * (sorted.length - 1);
        const [below, above] = [sorted[Math.floor(position)] ?? 0, sorted[Math.ceil(position)] ?? 0];
        expect(quantile(values, 0.3) + 0).toBe(below + (position % 1) * (above - below) + 0);
      }),
    );
  });

  it('carries the rounding of each addition along', () => {
    fc.assert(
      fc.property(fc.array(number, { maxLength: 40 }), (values) => {
        let [sum, lost] = [0, 0];
        for (const value of values) {
          const next = sum + value;
          lost += Math.abs(sum) >= Math.abs(value) ? sum - next + value : value - next + sum;
          sum = next;
        }
        expect(compensatedSum(values)).toBe(sum + lost);
      }),
    );
  });

  it('leaves the values in their order', () => {
    const values = [9, 1, 5, 3];
    median(values);
    medianAbsoluteDeviation(values);
    expect(values).toEqual([9, 1, 5, 3]);
  });
});
