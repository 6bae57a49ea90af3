import { checkedResult, checkLevel, checkSample } from '../../checked-input.js';
import { normal } from '../../distributions/normal.js';
import { studentT } from '../../distributions/student-t.js';
import type { Interval } from '../../interval.js';
import { StatisticsError } from '../../statistics-error.js';
import { doubledRanks } from '../comparison/mid-ranks.js';
import { mean } from '../summaries/mean.js';

export interface Correlation {
  readonly kind: 'pearson' | 'spearman';
  readonly estimate: number;
  /** On Fisher’s z scale. */
  readonly interval: Interval;
  /** Two-sided, against no correlation: Student’s t with n − 2 degrees of freedom. */
  readonly pValue: number;
  readonly n: number;
}

/**
 * Pearson's correlation: how near the pairs lie to any straight line. Limits tanh(atanh r ± z/√(n − 3)).
 *
 * Units must be independent: stations of one wall are not.
 *
 * @throws StatisticsError `too-few` below four pairs, `lengths-differ`, `not-finite`, `no-variation` where x or y is constant or all pairs
 *   lie on one line
 * @example pearson([4, 6, 9, 12], [4.4, 5.8, 9.1, 10.2]).estimate // 0.98098
 * @source Fisher 1915, Biometrika 10:507-521; 1921, Metron 1:3-32 (from memory)
 */
export function pearson(x: readonly number[], y: readonly number[], options: CorrelationOptions = {}): Correlation {
  return correlated('pearson', x, y, options, (n) => 1 / Math.sqrt(n - 3));
}

/**
 * Spearman's correlation of ranks: how near the pairs come to one order. Equal values share their mean rank. Limits on Fisher's z
 * scale with the error √((1 + r²/2)/(n − 3)) of Bonett and Wright; the p-value by Student's t is rough below ten pairs.
 *
 * @throws StatisticsError as `pearson`
 * @example spearman([4, 6, 9, 12, 7], [4.4, 5.8, 9.1, 8.2, 6.9]).estimate // 0.9
 * @source Spearman 1904, Am. J. Psychol. 15:72-101; Bonett and Wright 2000, Psychometrika 65:23-28 (from memory)
 */
export function spearman(x: readonly number[], y: readonly number[], options: CorrelationOptions = {}): Correlation {
  return correlated('spearman', x, y, options, (n, r) => Math.sqrt((1 + (r * r) / 2) / (n - 3)));
}

interface CorrelationOptions {
  readonly level?: number;
}

function correlated(
  kind: Correlation['kind'],
  x: readonly number[],
  y: readonly number[],
  { level = 0.95 }: CorrelationOptions,
  errorOf: (n: number, r: number) => number,
): Correlation {
  checkLevel(kind, level);
  checkSample(kind, 'x', x, 4);
  checkSample(kind, 'y', y, 4);
  const n = x.length;
  if (y.length !== n) throw new StatisticsError(kind, 'lengths-differ', `needs pairs, got ${n} x and ${y.length} y`);
  const estimate =
    kind === 'pearson' ? productMoment(kind, x, y) : productMoment(kind, doubledRanks(x), doubledRanks(y));
  // On one line but for rounding.
  if (1 - Math.abs(estimate) < 1e-12)
    throw new StatisticsError(
      kind,
      'no-variation',
      'needs pairs that do not all follow one line; check for copied values',
    );
  const half = normal().upperQuantile((1 - level) / 2) * errorOf(n, estimate);
  const z = Math.atanh(estimate);
  const t = Math.abs(estimate) * Math.sqrt((n - 2) / (1 - estimate * estimate));
  const interval = { level, lower: Math.tanh(z - half), upper: Math.tanh(z + half) };
  return checkedResult(kind, { kind, estimate, interval, pValue: 2 * studentT(n - 2).upperTail(t), n });
}

function productMoment(where: string, x: readonly number[], y: readonly number[]): number {
  const [centreX, centreY] = [mean(x), mean(y)];
  // Scaled by the largest deviation, so that squares neither overflow nor vanish.
  const from = (values: readonly number[], centre: number) => {
    const around = values.map((value) => value - centre);
    const largest = around.reduce((most, one) => Math.max(most, Math.abs(one)), 0);
    if (largest === 0 || !Number.isFinite(largest))
      throw new StatisticsError(where, 'no-variation', 'needs x and y that both vary, within the range of doubles');
    return around.map((one) => one / largest);
  };
  const [a, b] = [from(x, centreX), from(y, centreY)];
  const sum = (of: (at: number) => number) => a.reduce((all, _, at) => all + of(at), 0);
  const [aa, bb] = [sum((at) => (a[at] ?? 0) ** 2), sum((at) => (b[at] ?? 0) ** 2)];
  return sum((at) => (a[at] ?? 0) * (b[at] ?? 0)) / Math.sqrt(aa * bb);
}
