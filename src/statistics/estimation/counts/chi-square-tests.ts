import { chiSquare } from '../../distributions/index.js';
import { StatisticsError } from '../../statistics-error.js';

export interface ChiSquareTest {
  readonly kind: 'chi-square-test';
  readonly statistic: number;
  readonly degreesOfFreedom: number;
  readonly pValue: number;
  /** The fewest that any cell would hold; below about 5 the p-value is rough (common practice, no source). */
  readonly fewestExpected: number;
}

/**
 * Pearson's chi-square test of counts against equal shares.
 *
 * @throws StatisticsError `too-few` with fewer than two cells or no count, `out-of-range` for counts that are none
 * @example uniformity([18, 22, 20, 25, 15]).pValue // 0.5747
 * @source Pearson 1900, Philos. Mag. 50:157-175 (from memory)
 */
export function uniformity(counts: readonly number[]): ChiSquareTest {
  const total = totalOf('uniformity', counts);
  if (counts.length < 2 || total === 0)
    throw new StatisticsError('uniformity', 'too-few', `needs 2 cells and a count, got ${counts.length} and ${total}`);
  const expected = total / counts.length;
  const statistic = counts.reduce((sum, count) => sum + (count - expected) ** 2 / expected, 0);
  return tested(statistic, counts.length - 1, expected);
}

/**
 * Pearson's chi-square test of whether rows of counts have the same shares. Columns and rows without any count are passed over.
 *
 * @throws StatisticsError `too-few` where fewer than two rows or columns hold a count, `lengths-differ`, `out-of-range`
 * @example homogeneity([[10, 20, 30], [20, 20, 20]]).pValue // 0.06948
 */
export function homogeneity(table: readonly (readonly number[])[]): ChiSquareTest {
  const width = table[0]?.length ?? 0;
  if (table.some(({ length }) => length !== width))
    throw new StatisticsError('homogeneity', 'lengths-differ', 'needs rows of the same length');
  const rows = table.map((row) => totalOf('homogeneity', row)).map((total, at) => ({ total, row: table[at] ?? [] }));
  const kept = rows.filter(({ total }) => total > 0);
  const columns = Array.from({ length: width }, (_, at) => kept.reduce((sum, { row }) => sum + (row[at] ?? 0), 0));
  const used = columns.flatMap((total, at) => (total > 0 ? [{ total, at }] : []));
  if (kept.length < 2 || used.length < 2)
    throw new StatisticsError('homogeneity', 'too-few', 'needs counts in at least 2 rows and 2 columns');
  const all = kept.reduce((sum, { total }) => sum + total, 0);
  let [statistic, fewest] = [0, Number.POSITIVE_INFINITY];
  for (const { total, row } of kept)
    for (const column of used) {
      const expected = (total * column.total) / all;
      statistic += ((row[column.at] ?? 0) - expected) ** 2 / expected;
      fewest = Math.min(fewest, expected);
    }
  return tested(statistic, (kept.length - 1) * (used.length - 1), fewest);
}

function totalOf(where: string, counts: readonly number[]): number {
  const wrong = counts.find((count) => !Number.isSafeInteger(count) || count < 0);
  if (wrong !== undefined) throw new StatisticsError(where, 'out-of-range', `needs counts of 0 or more, got ${wrong}`);
  return counts.reduce((sum, count) => sum + count, 0);
}

function tested(statistic: number, degreesOfFreedom: number, fewestExpected: number): ChiSquareTest {
  const pValue = chiSquare(degreesOfFreedom).upperTail(statistic);
  return { kind: 'chi-square-test', statistic, degreesOfFreedom, pValue, fewestExpected };
}
