import type { PassMarkFound } from '../../analysis/index.js';
import { reasonInWords } from '../../labels/index.js';
import type { Judging } from '../../opinion/judging/judging.js';
import type { Opinion } from '../../opinion/opinion.js';
import type { Interval } from '../../statistics/index.js';
import type { Outcome, PassMark, Protocol } from '../../trial/index.js';
import { formatNumber, formatSigned, formatStated } from '../../words/format-number.js';
import { levelInWords } from '../../words/movement.js';
import { countInWords } from '../../words/quantity.js';
import { type Block, type Line, paragraph, quoted } from '../document.js';
import { dayText, intervalText, outcomeDecimals } from '../words/report-numbers.js';

/** Where the margin comes from: the plan's words, or the pass mark with the numbers that turned it into one. */
export function marginBlocks(opinion: Opinion): readonly Block[] {
  const { protocol, marginOrigin } = opinion;
  const { passMark, marginSource, margin = 0, outcome } = protocol;
  const source = marginSource === undefined ? [] : [paragraph('The margin comes from: ', quoted(marginSource), '.')];
  if (marginOrigin.kind !== 'from-pass-mark' || passMark === undefined) return source;
  const decimals = outcomeDecimals(opinion);
  const before = `Before the treatment the ${countInWords(marginOrigin.walls, 'wall')} of the comparison held ${formatNumber(marginOrigin.before, decimals)} ${outcome.unit} on average`;
  const size = `${formatStated(margin)} ${outcome.unit}`;
  const how =
    passMark.kind === 'reduction'
      ? `; ${formatStated(passMark.reduction_pct)} % of that is ${size}. As a margin on the difference it asks the same as the mark where both arms start alike and untreated walls stay as they were.`
      : `, ${size} from the target. As a margin on the difference it asks the same as the mark where both arms start alike and untreated walls stay as they were.`;
  return [
    paragraph(
      'The margin is the pass mark of the plan (source: ',
      quoted(passMark.source),
      `). ${before}${how} No reading after the treatment entered it.`,
    ),
    ...source,
  ];
}

/** The pass mark as published, judged beside the verdict. */
export function passMarkBlocks({ protocol, marginOrigin }: Opinion, { passMark: found }: Judging): readonly Block[] {
  const mark = protocol.passMark;
  if (mark === undefined || found === undefined) return [];
  const heading: Block = { kind: 'subheading', text: 'The agreed pass mark' };
  const asked: Line = [askedInWords(mark, protocol), ' Source: ', quoted(mark.source), '.'];
  if (found.answer.kind === 'not-estimated')
    return [heading, paragraph(...asked, ` It cannot be judged: ${reasonInWords(found.answer.notEstimated.reason)}.`)];
  const verdict =
    marginOrigin.kind === 'from-pass-mark'
      ? 'The verdict rests on the margin that was made of the mark beforehand, and not on this.'
      : 'The verdict rests on the margin and not on this.';
  return [heading, paragraph(...asked, ` ${foundInWords(mark, found, protocol)} ${verdict}`)];
}

function askedInWords(mark: PassMark, { outcome }: Protocol): string {
  if (mark.kind === 'reduction')
    return `The plan asks for the treated walls to stand ${formatStated(mark.reduction_pct)} % below the untreated ones in the after window.`;
  const side = outcome.better === 'lower' ? 'at or below' : 'at or above';
  return `The plan asks for the treated walls to stand ${side} ${formatStated(mark.target)} ${outcome.unit} by ${dayText(mark.by)}.`;
}

function foundInWords(mark: PassMark, { answer, reached }: PassMarkFound, { confidence, outcome }: Protocol): string {
  if (answer.kind === 'not-estimated') return '';
  const { estimate, interval } = answer.estimate;
  const level = levelInWords(confidence);
  if (mark.kind === 'reduction') {
    const stance = stanceOf(interval, mark.reduction_pct, 'higher');
    return `Found: ${formatSigned(estimate, 1)} % (${level} interval ${intervalText(interval, 1)}): ${stance}.`;
  }
  const stance = stanceOf(interval, mark.target, outcome.better);
  const { treated, untreated } = reached ?? { treated: { walls: 0, of: 0 }, untreated: { walls: 0, of: 0 } };
  const limits =
    interval === undefined ? 'none' : `${formatNumber(interval.lower, 2)} to ${formatNumber(interval.upper, 2)}`;
  return `Found: ${formatNumber(estimate, 2)} ${outcome.unit} on average (${level} interval ${limits}): ${stance}. It was reached by ${treated.walls} of ${treated.of} treated walls and by ${untreated.walls} of ${untreated.of} untreated ones; where untreated walls reach it, it says nothing of the treatment.`;
}

function stanceOf(interval: Interval | undefined, mark: number, better: Outcome['better']): string {
  if (interval === undefined) return 'no interval can be put on it';
  const [worst, best] = better === 'lower' ? [-interval.upper, -interval.lower] : [interval.lower, interval.upper];
  const asked = better === 'lower' ? -mark : mark;
  if (worst >= asked) return 'all of the interval reaches the mark';
  if (best < asked) return 'all of the interval falls short of the mark';
  return 'the interval holds the mark, so that neither passing nor failing is shown';
}
