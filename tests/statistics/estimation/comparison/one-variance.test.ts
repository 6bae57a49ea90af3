import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { blocked, paired, pooled, standardDeviation, variance, welch } from '../../../../src/statistics/index.js';
import { logRelativeError } from '../../log-relative-error.js';

interface NistSet {
  readonly name: string;
  readonly values: number[];
  readonly certified: { readonly mean: number; readonly standardDeviation: number };
}

const { cases }: { cases: NistSet[] } = JSON.parse(
  readFileSync(new URL('../../../reference/nist/univariate/univariate.json', import.meta.url), 'utf8'),
);

describe('the variance that NIST certifies is the one of every comparison of means', () => {
  it.each(cases)(
    'welch, pooled, paired and blocked keep 14 digits of the standard deviation of $name',
    ({ values, certified }) => {
      const root = Math.sqrt(values.length);
      const other = values.map(() => certified.mean);
      const blocks = values.map((value) => ({ x: [value], y: [0] }));
      const found = {
        paired: paired(values).standardError * root,
        // A second group without spread leaves the first one's; pooled, the spread of both with twice the degrees of freedom.
        welch: welch(values, other).standardError * root,
        pooled: pooled(values, other).standardError * Math.sqrt(values.length),
        // Every block weighs a half: one value on each side.
        blocked: blocked(blocks).standardError * root,
      };
      for (const [what, deviation] of Object.entries(found)) {
        expect(logRelativeError(deviation, certified.standardDeviation), what).toBeGreaterThanOrEqual(14);
      }
    },
  );

  it('is one where values share nearly all their digits', () => {
    const values = [0.1, 0.5, 0.3, 0.9, 0.2].map((value) => 1e12 + value);
    expect(paired(values).standardError * Math.sqrt(5)).toBeCloseTo(standardDeviation(values), 14);
    expect(variance([1e9 + 0.1, 1e9 + 0.2, 1e9 + 0.3])).toBeCloseTo(0.01, 15);
  });

  it('counts deviations no larger than rounding as none, and twice as large ones as some', () => {
    expect(variance([0.1 + 0.2, 0.3])).toBe(0);
    expect(variance([1, 1 + 20 * Number.EPSILON])).toBeGreaterThan(0);
  });
});
