import { checkLevel, checkSample } from '../../checked-input.js';
import { StatisticsError } from '../../statistics-error.js';
import { momentsOf } from '../summaries/moments.js';
import { judgedByT, type LevelOption, type MeanComparison } from './mean-comparison.js';

export interface TrimOptions extends LevelOption {
  /** The share of values cut off at each end of each group, below 0.5; 0.2 unless told. */
  readonly cut?: number;
}

/**
 * Difference of two trimmed means, x less y, for groups with outlying values: Welch's method on trimmed means and
 * Winsorised variances (Yuen 1974, Biometrika 61:165-170). With `cut` 0 it is `welch`.
 *
 * Of n values floor(cut n) are cut off at each end, leaving h. Standard error sqrt(dx + dy), d = (n - 1) s_w^2 / (h (h - 1)).
 *
 * @throws StatisticsError `too-few` when fewer than two values are left in a group, `out-of-range` for the cut, `no-variation`
 * @example trimmed([1, 2, 3, 4, 50], [0, 1, 2, 2, 3]).estimate // 4/3
 */
export function trimmed(
  x: readonly number[],
  y: readonly number[],
  options: TrimOptions = {},
): MeanComparison<'trimmed'> {
  const { level = 0.95, cut = 0.2 } = options;
  checkLevel('trimmed', level);
  if (!(cut >= 0 && cut < 0.5)) {
    throw new StatisticsError('trimmed', 'out-of-range', `needs a cut from 0 to below 0.5, got ${cut}`);
  }
  const first = trimmedGroup('x', x, cut);
  const second = trimmedGroup('y', y, cut);
  const share = first.squaredError / (first.squaredError + second.squaredError);
  return judgedByT({
    kind: 'trimmed',
    estimate: first.mean - second.mean,
    standardError: Math.sqrt(first.squaredError + second.squaredError),
    degreesOfFreedom: 1 / (share ** 2 / (first.left - 1) + (1 - share) ** 2 / (second.left - 1)),
    level,
    n: { x: x.length, y: y.length },
  });
}

interface TrimmedGroup {
  readonly mean: number;
  readonly squaredError: number;
  /** How many values were not cut off. */
  readonly left: number;
}

function trimmedGroup(name: string, values: readonly number[], cut: number): TrimmedGroup {
  checkSample('trimmed', name, values, 2);
  const sorted = [...values].sort((one, other) => one - other);
  // The product is meant as exact arithmetic: 0.2 of 15 is 3, whatever rounding makes of it.
  const off = Math.floor(cut * values.length + 1e-9);
  const kept = sorted.slice(off, sorted.length - off);
  checkSample('trimmed', `${name} after trimming`, kept, 2);
  const lowest = kept[0] as number;
  const highest = kept[kept.length - 1] as number;
  const winsorised = momentsOf(sorted.map((value) => Math.min(Math.max(value, lowest), highest)));
  return {
    mean: momentsOf(kept).mean,
    squaredError: winsorised.squares / (kept.length * (kept.length - 1)),
    left: kept.length,
  };
}
