import { checkedResult, checkLevel } from '../../checked-input.js';
import { normal } from '../../distributions/normal.js';
import type { Interval } from '../../interval.js';
import { StatisticsError } from '../../statistics-error.js';

export interface KappaOptions {
  readonly level?: number;
  /** How two grades apart count beside one: twice as much (`linear`, unless told), or four times (`quadratic`). */
  readonly weights?: 'linear' | 'quadratic';
}

export interface WeightedKappa {
  readonly kind: 'weighted-kappa';
  /** 1 for full agreement, 0 for that of two readers who grade at random in their own proportions. */
  readonly estimate: number;
  readonly standardError: number;
  /** By the normal curve: rough with few things graded. */
  readonly interval: Interval;
  readonly n: number;
}

/**
 * Cohen's weighted kappa of two readers who grade the same things, such as the surface of walls: agreement beyond that of chance, near
 * misses counting in part.
 *
 * @param table how often the first reader gave grade i and the second grade j, grades in order
 * @throws StatisticsError `too-few` with fewer than two grades or things, `lengths-differ` where the table is not square,
 *   `out-of-range` for counts that are no whole numbers of 0 or more, `no-variation` where a reader gave one grade only
 * @example weightedKappa([[10, 2, 0], [3, 8, 2], [0, 1, 9]]).estimate // 0.7403
 * @source Cohen 1968, Psychological Bulletin 70:213-220; error by Fleiss, Cohen and Everitt 1969, 72:323-327 (from memory)
 */
export function weightedKappa(
  table: readonly (readonly number[])[],
  { level = 0.95, weights = 'linear' }: KappaOptions = {},
): WeightedKappa {
  const where = 'weightedKappa';
  checkLevel(where, level);
  const grades = table.length;
  if (table.some(({ length }) => length !== grades))
    throw new StatisticsError(where, 'lengths-differ', 'needs a square table, a row and a column for each grade');
  const n = table.flat().reduce((sum, count) => sum + checkedCount(where, count), 0);
  if (grades < 2 || n < 2)
    throw new StatisticsError(where, 'too-few', `needs 2 grades and 2 things graded, got ${grades} and ${n}`);
  const power = weights === 'linear' ? 1 : 2;
  const weight = (i: number, j: number) => 1 - (Math.abs(i - j) / (grades - 1)) ** power;
  const share = (i: number, j: number) => (table[i]?.[j] ?? 0) / n;
  const at = Array.from({ length: grades }, (_, grade) => grade);
  const sum = (of: (grade: number) => number) => at.reduce((all, grade) => all + of(grade), 0);
  const rows = at.map((i) => sum((j) => share(i, j)));
  const columns = at.map((j) => sum((i) => share(i, j)));
  const [row, column] = [(i: number) => rows[i] ?? 0, (j: number) => columns[j] ?? 0];
  const observed = sum((i) => sum((j) => weight(i, j) * share(i, j)));
  const expected = sum((i) => sum((j) => weight(i, j) * row(i) * column(j)));
  if (rows.some((one) => one === 1) || columns.some((one) => one === 1) || 1 - expected < 1e-12)
    throw new StatisticsError(where, 'no-variation', 'needs two readers who both gave more than one grade');
  const estimate = (observed - expected) / (1 - expected);
  const ofRow = at.map((i) => sum((j) => column(j) * weight(i, j)));
  const ofColumn = at.map((j) => sum((i) => row(i) * weight(i, j)));
  const squares = sum((i) =>
    sum((j) => share(i, j) * (weight(i, j) - ((ofRow[i] ?? 0) + (ofColumn[j] ?? 0)) * (1 - estimate)) ** 2),
  );
  const centre = estimate - expected * (1 - estimate);
  const standardError = Math.sqrt(Math.max(0, squares - centre ** 2) / n) / (1 - expected);
  const half = normal().upperQuantile((1 - level) / 2) * standardError;
  const interval = { level, lower: estimate - half, upper: estimate + half };
  return checkedResult(where, { kind: 'weighted-kappa', estimate, standardError, interval, n });
}

function checkedCount(where: string, count: number): number {
  if (Number.isSafeInteger(count) && count >= 0) return count;
  throw new StatisticsError(where, 'out-of-range', `needs counts of 0 or more, got ${count}`);
}
