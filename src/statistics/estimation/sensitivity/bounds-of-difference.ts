import { checkedResult, checkSample } from '../../checked-input.js';
import { StatisticsError } from '../../statistics-error.js';
import { extremes } from '../summaries/extremes.js';
import { mean } from '../summaries/mean.js';

export interface BoundsOfDifference {
  readonly kind: 'bounds-of-difference';
  readonly lower: number;
  readonly upper: number;
}

/**
 * The least and the greatest difference of two means, x less y, that the missing units could have made, each of them
 * anywhere in a stated range: no assumption on why they are missing (Horowitz and Manski 2000, J. Am. Stat. Assoc. 95:77-84).
 * These bounds hold no chance; they are what is left when chance is put aside.
 *
 * @param range of a single unit; the observed range unless told
 * @throws StatisticsError `too-few`, `not-finite`, `out-of-range`
 * @example boundsOfDifference({ x: [1, 3], y: [0, 2], missing: { x: 1, y: 0 } }) // { kind: 'bounds-of-difference', lower: 1/3, upper: 4/3 }
 */
export function boundsOfDifference(observed: {
  readonly x: readonly number[];
  readonly y: readonly number[];
  readonly missing: { readonly x: number; readonly y: number };
  readonly range?: { readonly least: number; readonly greatest: number };
}): BoundsOfDifference {
  const where = 'boundsOfDifference';
  const { x, y, missing } = observed;
  checkSample(where, 'x', x, 1);
  checkSample(where, 'y', y, 1);
  const { least, greatest } = observed.range ?? extremes([...x, ...y]);
  if (!(least <= greatest && Number.isFinite(greatest - least))) {
    throw new StatisticsError(
      where,
      'out-of-range',
      `needs a range from its least to its greatest, got ${least} to ${greatest}`,
    );
  }
  for (const count of [missing.x, missing.y]) {
    if (Number.isSafeInteger(count) && count >= 0) continue;
    throw new StatisticsError(where, 'out-of-range', `needs whole numbers of missing units, got ${count}`);
  }
  const filled = (values: readonly number[], count: number, value: number) =>
    (mean(values) * values.length + count * value) / (values.length + count);
  return checkedResult(where, {
    kind: 'bounds-of-difference',
    lower: filled(x, missing.x, least) - filled(y, missing.y, greatest),
    upper: filled(x, missing.x, greatest) - filled(y, missing.y, least),
  });
}
