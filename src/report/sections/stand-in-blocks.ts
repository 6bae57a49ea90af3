import type { Answer, SurrogateAudit } from '../../analysis/index.js';
import { type FromTo, plausibilityLedger } from '../../findings/potentials/voltage-ledger.js';
import { reasonInWords } from '../../labels/index.js';
import type { StandIn } from '../../opinion/judging/judging.js';
import { decimalsFor, formatSigned } from '../../words/format-number.js';
import { countInWords } from '../../words/quantity.js';
import { type Block, type Line, paragraph, quoted, strong } from '../document.js';
import { competingVoltages } from '../words/competing-voltages.js';
import { ledgerDriverInWords, ledgerMethodInWords } from '../words/ledger-in-words.js';

/**
 * Whether a reading beside the outcome may stand in for it; for voltages, or where the plan claims a field, what else makes
 * voltages and how much water a field moves.
 */
export function standInBlocks(standIns: readonly StandIn[], claimed_v_per_m?: number): readonly Block[] {
  const isVoltage = standIns.some((one) => one.isVoltage);
  const field = isVoltage || claimed_v_per_m !== undefined ? voltageBlocks(claimed_v_per_m) : [];
  if (standIns.length > 0) return [...auditBlocks(standIns, isVoltage), ...field];
  return field.length === 0 ? [] : [{ kind: 'subheading', text: 'The field that is claimed' }, ...field];
}

function auditBlocks(standIns: readonly StandIn[], isVoltage: boolean): readonly Block[] {
  return [
    {
      kind: 'subheading',
      text: isVoltage ? 'The voltage question, and other stand-ins' : 'May a meter stand in for the outcome?',
    },
    paragraph(
      'A reading that turns when the treatment is switched on shows that something was switched on. To stand in for moisture it would have to predict, among walls of the same arm, which of them dry. ',
      strong('Graded indirect whatever it shows; it never moves the verdict.'),
    ),
    {
      kind: 'table',
      caption: 'Stand-ins: movement by arm, and what they predict',
      columns: [
        { header: 'Stand-in' },
        { header: 'Change by arm', look: 'prose' },
        { header: 'Moisture change per unit, inside arms', look: 'prose' },
        { header: 'Share of the effect', look: 'prose' },
      ],
      rows: standIns.map(rowOf),
    },
    paragraph(
      'To become evidence, a stand-in would have to predict the weighed change inside each arm, in this trial and again in another. The interval of its share of the effect would have to lie near one and exclude one half.',
    ),
  ];
}

function rowOf({ instrument, isVoltage, audit }: StandIn): Line[] {
  if ('code' in audit) return [[quoted(instrument)], [`No audit: ${reasonInWords(audit)}.`], ['none'], ['none']];
  const arms = audit.arms.map(({ arm, change, interval, turned, walls }) => {
    const decimals = decimalsFor(interval ? (interval.upper - interval.lower) / 2 : Math.abs(change));
    const limits = interval
      ? ` (${formatSigned(interval.lower, decimals)} to ${formatSigned(interval.upper, decimals)})`
      : '';
    return `${arm}: ${formatSigned(change, decimals)}${limits}${isVoltage ? `, ${turned} of ${walls} walls changed sign` : ''}`;
  });
  return [
    [quoted(`${instrument}, read ${audit.when}`)],
    [
      quoted(
        `${audit.effectOnStandIn.kind === 'estimated' ? `In ${audit.effectOnStandIn.estimate.unit}: ` : ''}${arms.join('; ')}.`,
      ),
    ],
    [`${sentence(numbersOf(audit.prediction))} ${delayInWords(audit)}`],
    [numbersOf(audit.shareExplained)],
  ];
}

function delayInWords({ delay_days, lags }: SurrogateAudit): string {
  const side = delay_days >= 0 ? 'before' : 'after';
  const looked = `Read ${countInWords(Math.abs(delay_days), 'day')} ${side} the middle of the after window, on average.`;
  const tried = lags.flatMap(({ delay_days, prediction }) => {
    const interval = prediction.kind === 'estimated' ? prediction.estimate.interval : undefined;
    return interval === undefined ? [] : [{ delay_days, holdsZero: interval.lower <= 0 && interval.upper >= 0 }];
  });
  if (tried.length < 2) return looked;
  const clear = tried.filter(({ holdsZero }) => !holdsZero).map((one) => daysInWords(one.delay_days));
  const found =
    clear.length === 0
      ? 'each interval includes zero'
      : `${clear.length === 1 ? 'one leaves' : `${clear.length} leave`} out zero (${daysShown(clear)})`;
  const [first, last] = [tried[0], tried.at(-1)].map((one) => daysInWords(one?.delay_days ?? 0));
  return `${looked} By each of ${tried.length} visits alone, from ${first} to ${last}: ${found}.`;
}

/** More than three are named by their ends. */
function daysShown(days: readonly string[]): string {
  return days.length > 3 ? `the first ${days[0]}, the last ${days.at(-1)}` : days.join(', ');
}

function daysInWords(delay_days: number): string {
  return `${countInWords(Math.abs(delay_days), 'day')} ${delay_days >= 0 ? 'before' : 'after'} it`;
}

function sentence(text: string): string {
  return text.endsWith('.') ? text : `${text}.`;
}

function numbersOf(answer: Answer): string {
  if (answer.kind === 'not-estimated') return `Not estimated: ${reasonInWords(answer.notEstimated.reason)}.`;
  const { estimate, interval } = answer.estimate;
  if (interval === undefined) return formatSigned(estimate, 2);
  const decimals = Math.min(6, decimalsFor((interval.upper - interval.lower) / 2));
  const verdict = interval.lower > 0 || interval.upper < 0 ? '' : '; includes zero';
  return `${formatSigned(estimate, decimals)} (${formatSigned(interval.lower, decimals)} to ${formatSigned(interval.upper, decimals)}${verdict})`;
}

function voltageBlocks(claimed_v_per_m: number | undefined): readonly Block[] {
  return [
    {
      kind: 'table',
      caption: 'What else makes a voltage in a wall, and how much',
      columns: [
        { header: 'Source' },
        { header: 'Size it can have', look: 'prose' },
        { header: 'Where the number is from', look: 'prose' },
      ],
      rows: competingVoltages.map(({ source, size, mark }): Line[] => [[source], [size], [mark]]),
    },
    {
      kind: 'table',
      caption:
        'Ledger: the water that a field could move beside the water that evaporation moves, through the foot of a wall 225 mm thick; from the least to the most',
      columns: [
        { header: 'Driven by' },
        { header: 'mm of water a day', look: 'number' },
        { header: 'Of what evaporation moves', look: 'whole' },
        { header: 'How it was found', look: 'prose' },
      ],
      rows: plausibilityLedger(claimed_v_per_m).map(({ driver, flux_mm_per_day, share }): Line[] => [
        [ledgerDriverInWords(driver)],
        [fromTo(flux_mm_per_day)],
        [sharesInWords(share)],
        [ledgerMethodInWords(driver)],
      ]),
    },
  ];
}

function fromTo({ low, high }: FromTo): string {
  return low === high ? twoDigits(low) : `${twoDigits(low)} to ${twoDigits(high)}`;
}

function sharesInWords({ low, high }: FromTo): string {
  if (low === high) return 'all of it';
  return `${low === 0 ? 'nothing' : shareInWords(low)} to ${shareInWords(high)}`;
}

function shareInWords(share: number): string {
  return share < 1 ? `one part in ${twoDigits(1 / share)}` : `${twoDigits(share)} times`;
}

function twoDigits(value: number): string {
  return Number(value.toPrecision(2)).toString();
}
