import type { Computed, DriftFacts, InstrumentFacts } from '../../findings/instruments/instrument-facts.js';
import { isMeter } from '../../findings/instruments/is-meter.js';
import { reasonInWords } from '../../labels/index.js';
import type { GravimetricBudget } from '../../moisture/index.js';
import type { Opinion } from '../../opinion/opinion.js';
import { decimalsFor, formatNumber, formatSigned, formatStated } from '../../words/format-number.js';
import { levelInWords } from '../../words/movement.js';
import { countInWords } from '../../words/quantity.js';
import { type Block, paragraph, quoted, type Table } from '../document.js';
import { intervalText } from '../words/report-numbers.js';
import { belowBlocks } from './below-blocks.js';
import { calibrationBlocks } from './calibration-blocks.js';

/** Calibration, drift, agreement, values below detection and the budget of one instrument, under its own heading where there are any. */
export function instrumentBlocks(opinion: Opinion, facts: InstrumentFacts): readonly Block[] {
  const blocks = [
    ...indexBlocks(facts),
    ...facts.calibrations.flatMap((each) => calibrationBlocks(opinion, facts, each)),
    ...driftBlocks(facts, facts.drift),
    ...trackingBlocks(facts),
    ...readersBlocks(facts),
    ...belowBlocks(facts, opinion.protocol.confidence),
    ...(facts.budget === undefined ? [] : budgetBlocks(facts.budget)),
  ];
  if (blocks.length === 0) return [];
  const heading =
    facts.kind === 'gravimetric'
      ? 'The cores: how well one is known'
      : `The ${facts.kind} readings: what they can stand for`;
  return [{ kind: 'subheading', text: heading }, ...blocks];
}

function indexBlocks({ instrument, kind, calibrations }: InstrumentFacts): readonly Block[] {
  if (!isMeter(kind) || calibrations.length > 0) return [];
  return [
    paragraph(
      'The trial has no cores to calibrate ',
      quoted(instrument),
      ' against. It stays an index: it can rank places and show change, and it cannot yield percent.',
    ),
  ];
}

function driftBlocks(
  { instrument, scale }: InstrumentFacts,
  drift: Computed<DriftFacts> | undefined,
): readonly Block[] {
  if (drift === undefined) return [];
  if (drift.kind === 'not-computed')
    return [paragraph('Whether ', quoted(instrument), ` drifted is not known: ${reasonInWords(drift.reason)}.`)];
  const { drift: moved, interval, days, checks, blocks, inMoisture } = drift.value;
  const decimals = decimalsFor((interval.upper - interval.lower) / 2);
  const water =
    inMoisture === undefined
      ? ''
      : ` On a wall that would look like ${formatSigned(inMoisture.drift, decimalsFor(Math.abs(inMoisture.drift)))} ${inMoisture.unit}.`;
  const verdict =
    interval.lower > 0 || interval.upper < 0
      ? 'The instrument itself moved: a change of that size on every wall alike is the meter, not the water. Arms that were read on the same days share it, and their difference loses it.'
      : 'No drift shows beyond the scatter of the checks.';
  return [
    paragraph(
      `On ${countInWords(blocks, 'check block')} that did not change, `,
      quoted(instrument),
      ` moved by ${formatSigned(moved, decimals)} of ${scale === 'logarithmic' ? 'the base-10 logarithm of its index' : 'its index'} (${levelInWords(interval.level)} interval ${intervalText(interval, decimals)}) over ${formatNumber(days, 0)} days, by ${countInWords(checks, 'check')}.${water} ${verdict}`,
    ),
  ];
}

function trackingBlocks({ tracking, instrument, readingRises }: InstrumentFacts): readonly Block[] {
  if (tracking === undefined) return [];
  if (tracking.kind === 'not-computed')
    return [
      paragraph(
        'Whether the change by ',
        quoted(instrument),
        ` follows the cores’ cannot be said: ${reasonInWords(tracking.reason)}.`,
      ),
    ];
  const { correlation, interval, sameDirection, walls } = tracking.value;
  return [
    paragraph(
      'Wall by wall, the change by ',
      quoted(instrument),
      `${readingRises === 'against-moisture' ? ' (turned round, for it falls with moisture)' : ''} and the change by cores correlate by ${formatNumber(correlation, 2)} (${levelInWords(interval.level)} interval ${formatNumber(interval.lower, 2)} to ${formatNumber(interval.upper, 2)}). Both went the same way on ${formatNumber(sameDirection, 0)} of ${countInWords(walls, 'wall')}.`,
    ),
  ];
}

function readersBlocks({ readers, unit, instrument }: InstrumentFacts): readonly Block[] {
  if (readers === undefined) return [];
  const decimals = decimalsFor(readers.reproducibility);
  return [
    paragraph(
      `At ${countInWords(readers.places, 'place')} that ${countInWords(readers.readers, 'reader')} read on the same day and again, readings of `,
      quoted(instrument),
      ` have a standard deviation of ${formatNumber(readers.repeatability, decimals)} ${unit} by one reader and of ${formatNumber(readers.reproducibility, decimals)} between readers (ISO 5725-2). Two readings by two readers differ by more than ${formatNumber(readers.reproducibilityLimit, decimals)} in one case of twenty.`,
    ),
  ];
}

function budgetBlocks(budget: GravimetricBudget): readonly Block[] {
  const rows = budget.rows.filter(({ name }) => name.endsWith('weighing'));
  const uncertainty = decimalsFor(budget.standardUncertainty);
  // One figure of the uncertainty, and the value as far as that: more is not known of a core.
  const shown = Math.max(2, uncertainty - 1);
  const drilling = budget.rows.find(({ name }) => name === 'drilling loss');
  return [
    paragraph(
      `A core of median dry mass holds ${formatNumber(budget.value, shown)} % by mass, with a standard uncertainty of ${formatNumber(budget.standardUncertainty, shown)} percentage points from ${drilling === undefined ? 'weighing alone' : 'weighing and from the share of water lost in drilling'}. Water left by the oven${drilling === undefined ? ', lost in drilling' : ''} or lost on the way is not stated by the trial, so it is not in the table. The place drilled usually matters most; the trial’s intervals include it in the variation of walls and stations.`,
    ),
    ...(drilling === undefined ? [] : [drillingParagraph(drilling, uncertainty + 1)]),
    budgetTable(rows, uncertainty + 1),
  ];
}

function drillingParagraph(
  { value, standardUncertainty, contribution }: GravimetricBudget['rows'][number],
  decimals: number,
) {
  return paragraph(
    `Drilling drove ${formatStated(value)} % of its water out of a core, as the plan states (standard uncertainty ${formatStated(standardUncertainty)}). It is added back here, and contributes ${formatNumber(contribution, decimals)} percentage points to the uncertainty. It is a proportion: a wet core loses more than a dry one. The loss does not cancel between before and after, and a change is read too small by the same proportion. The trial’s verdict rests on the cores as recorded; the table of answers has the corrected one beside it.`,
  );
}

function budgetTable(rows: GravimetricBudget['rows'], decimals: number): Table {
  return {
    kind: 'table',
    caption: 'Uncertainty budget of that core (JCGM 100), what the trial states',
    columns: [
      { header: 'Source' },
      { header: 'Value (g)', look: 'number' },
      { header: 'Standard uncertainty (g)', look: 'number' },
      { header: 'Sensitivity (points per g)', look: 'number' },
      { header: 'Contribution (points)', look: 'number' },
      { header: 'Share', look: 'number' },
    ],
    rows: rows.map((row) => [
      [row.name],
      [formatNumber(row.value, 2)],
      [formatNumber(row.standardUncertainty, 4)],
      [formatSigned(row.sensitivity, 2)],
      [formatNumber(row.contribution, decimals)],
      [`${formatNumber(100 * row.shareOfVariance, 0)} %`],
    ]),
  };
}
