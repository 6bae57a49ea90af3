import type { Estimate, EstimateWithInterval } from '../../analysis/index.js';
import { verdictCode } from '../../analysis/verdict-code.js';
import { labelOf } from '../../labels/index.js';
import type { Opinion } from '../../opinion/opinion.js';
import type { Interval } from '../../statistics/index.js';
import { numberInWords } from '../../words/quantity.js';

/** What sets an analysis apart from the primary one, ending a sentence that begins with "because". */
const differences: Readonly<Record<string, string>> = {
  'baseline-adjusted': 'it sets walls beside each other that had the same before value',
  randomisation:
    'it takes its interval from the allocations that could have been drawn, and does not rely on normality',
  'mixed-model': 'it weighs walls by what their stations tell of them and lets blocks vary by chance',
  'cluster-robust': 'it counts every station alike, so that walls with more stations weigh more',
  'paired-series': 'it follows the walls visit by visit at the autocorrelation that fits best',
  'paired-series-robust': 'it takes its interval from the visits without a model of how alike they are',
  'paired-series-trend': 'it takes off what the trend before the treatment would have led to',
  'paired-series-weather': 'it takes off what the weather moved',
  bootstrap: 'it takes its interval from resampling the walls, and does not rely on normality',
};

/** Shift of the estimate, in half-widths of the primary interval, from which it and not the width is named: our convention. */
const noteworthyShift = 0.25;

/**
 * Whether the other analyses, held against zero and the margin, lead to the primary verdict; and if not, why.
 *
 * @example agreement(opinion) // 'Held against zero and the margin, all 5 other analyses …'
 */
export function agreement({ primary, protocol, analyses }: Opinion): string {
  if (primary.kind !== 'estimated')
    return 'The primary analysis has no interval, so that the others have nothing to be held against.';
  const others = analyses.flatMap((answer) => (answer.kind === 'estimated' ? withInterval(answer.estimate) : []));
  if (others.length === 0) return 'No other analysis with an interval could be made.';
  const { margin, outcome } = protocol;
  if (margin === undefined) return 'Without a margin the analyses can be compared by their intervals only.';
  const codeOf = ({ interval }: EstimateWithInterval) => verdictCode(interval, margin, outcome.better);
  const own = codeOf(primary.estimate);
  const apart = others.filter((other) => codeOf(other) !== own);
  if (apart.length === 0)
    return others.length === 1
      ? `Held against zero and the margin, the other analysis with an interval leads to the same verdict as the primary one.`
      : `Held against zero and the margin, all ${others.length} other analyses with an interval lead to the same verdict as the primary one.`;
  const stories = apart.map(
    (other) =>
      `“${labelOf(other)}” would say ${codeOf(other)}, because ${differences[other.id] ?? 'it makes other assumptions'} (${howApart(primary.estimate, other)})`,
  );
  return `Held against zero and the margin, ${apart.length} of ${others.length} other analyses with an interval would lead to another verdict than ${own}: ${stories.join('; ')}. The primary analysis was fixed beforehand and stands; the difference shows how much hangs on the choice.`;
}

function withInterval(estimate: Estimate): readonly EstimateWithInterval[] {
  return estimate.interval === undefined ? [] : [{ ...estimate, interval: estimate.interval }];
}

function howApart(primary: EstimateWithInterval, other: EstimateWithInterval): string {
  const shift = other.estimate - primary.estimate;
  if (Math.abs(shift) > noteworthyShift * halfWidth(primary.interval))
    return `its estimate lies ${numberInWords(Math.abs(shift))} ${primary.unit} ${shift < 0 ? 'lower' : 'higher'}`;
  const ratio = halfWidth(other.interval) / halfWidth(primary.interval);
  if (Math.abs(ratio - 1) < 0.02) return 'its limits differ by little, but lie on the other side of zero or the margin';
  return `its interval is ${numberInWords(ratio)} times as wide`;
}

function halfWidth({ lower, upper }: Interval): number {
  return (upper - lower) / 2;
}
