import { checkedResult, checkPositive } from '../../checked-input.js';
import { StatisticsError } from '../../statistics-error.js';
import { extremes } from '../summaries/extremes.js';
import { mean } from '../summaries/mean.js';
import { checkPairs, type MeasuredPairs, sameLength } from './check-pairs.js';
import type { FittedLine } from './fitted-line.js';
import { uncertaintyOfLeftOut } from './left-out-lines.js';

export interface DemingOptions {
  /** Variance of the errors of y over that of x. 1, which is orthogonal regression, unless told: state it. */
  readonly errorRatio?: number;
  /** 0.95 unless told. */
  readonly level?: number;
  /** Pairs that belong together, such as those of one wall: the jackknife then leaves out a group at a time. */
  readonly groups?: readonly string[];
}

export interface DemingLine extends FittedLine {
  readonly kind: 'deming';
  readonly errorRatio: number;
  /** Standard deviation of y about the line, √(Σ(y − line)²/(n − 2)). */
  readonly scatter: number;
  /** The lines without each group (or each pair) in turn. */
  readonly leftOut: readonly LineWithout[];
}

export interface LineWithout {
  /** The group, or the index of the pair. */
  readonly group: string;
  readonly slope: number;
  readonly intercept: number;
}

/**
 * Straight line through pairs of which both members carry errors of constant variance, with a known ratio (Deming).
 *
 * slope = (Syy − λSxx + √((Syy − λSxx)² + 4λSxy²)) / (2Sxy), λ the variance of the errors of y over that of x. Its
 * uncertainty is that of the jackknife over pairs, or over groups of them, with units − 2 degrees of freedom.
 *
 * @throws StatisticsError `too-few` below three pairs or three groups, `no-variation` for constant or unrelated values,
 *   `out-of-range`, `not-finite`, `lengths-differ`
 * @example deming({ x: [1, 2, 3, 4], y: [2.1, 3.9, 6.2, 7.8] }).slope // 1.94...
 * @source Linnet 1993, Clin. Chem. 39:424-432 (from memory)
 */
export function deming(pairs: MeasuredPairs, options: DemingOptions = {}): DemingLine {
  const where = 'deming';
  const { errorRatio = 1, level = 0.95, groups } = options;
  checkPairs(where, pairs);
  checkPositive(where, 'error ratio', errorRatio);
  if (groups !== undefined) sameLength(where, 'groups', groups, pairs.x.length);
  const { x, y } = pairs;
  const n = x.length;
  const centre = { x: mean(x), y: mean(y) };
  const sums = sumsByGroup(pairs, centre, groups);
  if (sums.size < 3)
    throw new StatisticsError(where, 'too-few', `needs at least 3 groups, got ${sums.size}; leave the groups out`);
  const total = [...sums.values()].reduce(plus);
  const { least, greatest } = extremes(x);
  const slope = slopeOf(where, total, errorRatio);
  const lines = [...sums].map(([group, own]) => {
    const rest = minus(total, own);
    const without = slopeOf(where, rest, errorRatio);
    return { group, slope: without, level: rest.y / rest.n - (without * rest.x) / rest.n };
  });
  const intercept = centre.y - slope * centre.x;
  const residual = total.yy - 2 * slope * total.xy + slope * slope * total.xx;
  return checkedResult(where, {
    kind: 'deming',
    slope,
    intercept,
    ...uncertaintyOfLeftOut(where, { slope, intercept, centreX: centre.x }, lines, level),
    centre,
    n,
    range: { from: least, to: greatest },
    errorRatio,
    scatter: Math.sqrt(Math.max(0, residual) / (n - 2)),
    leftOut: lines.map((line) => ({
      group: line.group,
      slope: line.slope,
      intercept: centre.y + line.level - line.slope * centre.x,
    })),
  });
}

/** Sums of deviations from the centre of all pairs, and of their products. */
interface Sums {
  readonly n: number;
  readonly x: number;
  readonly y: number;
  readonly xx: number;
  readonly yy: number;
  readonly xy: number;
}

function sumsByGroup(
  { x, y }: MeasuredPairs,
  centre: FittedLine['centre'],
  groups: readonly string[] | undefined,
): ReadonlyMap<string, Sums> {
  const byGroup = new Map<string, Sums>();
  for (const [index, value] of x.entries()) {
    const group = groups?.[index] ?? String(index);
    const dx = value - centre.x;
    const dy = (y[index] as number) - centre.y;
    const own = { n: 1, x: dx, y: dy, xx: dx * dx, yy: dy * dy, xy: dx * dy };
    const before = byGroup.get(group);
    byGroup.set(group, before === undefined ? own : plus(before, own));
  }
  return byGroup;
}

function plus(a: Sums, b: Sums): Sums {
  return { n: a.n + b.n, x: a.x + b.x, y: a.y + b.y, xx: a.xx + b.xx, yy: a.yy + b.yy, xy: a.xy + b.xy };
}

function minus(a: Sums, b: Sums): Sums {
  return { n: a.n - b.n, x: a.x - b.x, y: a.y - b.y, xx: a.xx - b.xx, yy: a.yy - b.yy, xy: a.xy - b.xy };
}

function slopeOf(where: string, { n, x, y, xx, yy, xy }: Sums, errorRatio: number): number {
  const sxx = xx - (x * x) / n;
  const syy = yy - (y * y) / n;
  const sxy = xy - (x * y) / n;
  const half = (syy - errorRatio * sxx) / 2;
  const root = Math.hypot(half, Math.sqrt(errorRatio) * sxy);
  // The two forms are equal; each is free of cancellation on its side.
  const slope = half >= 0 ? (half + root) / sxy : (errorRatio * sxy) / (root - half);
  if (!Number.isFinite(slope) || n < 2 || !(root > 0)) {
    const detail = 'needs x and y that vary together, with every group left out in turn; take pairs over a wider range';
    throw new StatisticsError(where, 'no-variation', detail);
  }
  return slope;
}
