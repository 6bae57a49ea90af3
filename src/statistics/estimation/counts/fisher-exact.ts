import { StatisticsError } from '../../statistics-error.js';

/** How many of two groups have something, and how many have not. */
export interface TwoByTwo {
  readonly x: { readonly having: number; readonly not: number };
  readonly y: { readonly having: number; readonly not: number };
}

export interface FisherExact {
  readonly kind: 'fisher-exact';
  /** Two-sided: the tables with the same margins that are no likelier than this one. */
  readonly pValue: number;
  /** Chance of as many, or more, in `x`; and of as many, or fewer. */
  readonly more: number;
  readonly fewer: number;
}

/** Probabilities that differ by rounding alone count as equal. */
const tie = 1 + 1e-7;

/**
 * Fisher's exact test of a two-by-two table, given its margins: are those that have something as frequent in `x` as in `y`?
 *
 * @throws StatisticsError `out-of-range` for counts that are none, `too-few` where a group is empty
 * @example fisherExact({ x: { having: 3, not: 1 }, y: { having: 1, not: 3 } }).pValue // 0.4857
 * @source Fisher 1935, The Design of Experiments, chapter 2 (from memory)
 */
export function fisherExact({ x, y }: TwoByTwo): FisherExact {
  const counts = [x.having, x.not, y.having, y.not];
  if (counts.some((count) => !Number.isSafeInteger(count) || count < 0))
    throw new StatisticsError('fisherExact', 'out-of-range', `needs counts of 0 or more, got ${counts.join(', ')}`);
  const [ofX, ofY, having] = [x.having + x.not, y.having + y.not, x.having + y.having];
  if (ofX === 0 || ofY === 0)
    throw new StatisticsError('fisherExact', 'too-few', 'needs at least 1 unit in each group, got none');
  const [fewest, most] = [Math.max(0, having - ofY), Math.min(ofX, having)];
  const { probabilities } = hypergeometric({ ofX, ofY, having, fewest, most });
  const at = x.having - fewest;
  const observed = probabilities[at] ?? 0;
  const sum = (values: readonly number[]) =>
    Math.min(
      1,
      values.reduce((total, value) => total + value, 0),
    );
  return {
    kind: 'fisher-exact',
    pValue: sum(probabilities.filter((probability) => probability <= observed * tie)),
    more: sum(probabilities.slice(at)),
    fewer: sum(probabilities.slice(0, at + 1)),
  };
}

interface Margins {
  readonly ofX: number;
  readonly ofY: number;
  readonly having: number;
  readonly fewest: number;
  readonly most: number;
}

/** Relative to the likeliest table and normalised at the end, so that no factorial is needed and nothing overflows. */
function hypergeometric({ ofX, ofY, having, fewest, most }: Margins): { readonly probabilities: readonly number[] } {
  const mode = Math.min(most, Math.max(fewest, Math.floor(((ofX + 1) * (having + 1)) / (ofX + ofY + 2))));
  const weights = new Array<number>(most - fewest + 1).fill(0);
  weights[mode - fewest] = 1;
  const ratio = (k: number) => ((ofX - k) * (having - k)) / ((k + 1) * (ofY - having + k + 1));
  for (let k = mode; k < most; k++) weights[k + 1 - fewest] = (weights[k - fewest] ?? 0) * ratio(k);
  for (let k = mode; k > fewest; k--) weights[k - 1 - fewest] = (weights[k - fewest] ?? 0) / ratio(k - 1);
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  return { probabilities: weights.map((weight) => weight / total) };
}
