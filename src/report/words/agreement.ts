import { labelOf } from '../../labels/index.js';
import type { ReasonApart } from '../../opinion/agreement-of-analyses.js';
import type { Opinion } from '../../opinion/opinion.js';
import { verdictInWords } from '../../opinion/threats/turn-in-words.js';
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
  'paired-series-trend': 'it adjusts for where the trend before the treatment would have led',
  'paired-series-weather': 'it adjusts for the weather',
  bootstrap: 'it takes its interval from resampling the walls, and does not rely on normality',
};

/**
 * Whether the other analyses, held against zero and the margin, lead to the primary verdict; and if not, why.
 *
 * @example agreementInWords(opinion) // 'Held against zero and the margin, all 5 other analyses …'
 */
export function agreementInWords({ agreement, protocol, primary }: Opinion): string {
  if (agreement.kind === 'no-primary')
    return 'The primary analysis has no interval, so that the others have nothing to be held against.';
  const { code, others, apart } = agreement;
  if (others === 0) return 'No other analysis with an interval could be made.';
  if (protocol.margin === undefined) return 'Without a margin the analyses can be compared by their intervals only.';
  if (apart.length === 0)
    return others === 1
      ? `Held against zero and the margin, the other analysis with an interval leads to the same verdict as the primary one.`
      : `Held against zero and the margin, all ${others} other analyses with an interval lead to the same verdict as the primary one.`;
  const unit = primary.kind === 'estimated' ? primary.estimate.unit : protocol.outcome.unit;
  const stories = apart.map(
    (other) =>
      `“${labelOf(other.estimate)}” would say ${verdictInWords(other.code)}, because ${differences[other.estimate.id] ?? 'it makes other assumptions'} (${howApart(other.because, unit)}).`,
  );
  return `Held against zero and the margin, ${apart.length} of ${others} other analyses with an interval would lead to another verdict than ${verdictInWords(code)}. ${stories.join(' ')} The primary analysis was fixed beforehand and stands. The difference shows how much depends on the choice.`;
}

function howApart(because: ReasonApart, unit: string): string {
  switch (because.kind) {
    case 'shifted':
      return `its estimate lies ${numberInWords(Math.abs(because.shift))} ${unit} ${because.shift < 0 ? 'lower' : 'higher'}`;
    case 'wider':
      return `its interval is ${numberInWords(because.ratio)} times as wide`;
    case 'limits-differ-little':
      return 'its limits differ by little, but lie on the other side of zero or the margin';
  }
}
