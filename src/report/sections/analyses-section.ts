import type { Estimate, NotEstimated } from '../../analysis/index.js';
import { describeIntervalChart, type IntervalChartData, intervalChart } from '../../charts/index.js';
import { estimateInWords, labelOf, reasonInWords } from '../../labels/index.js';
import type { Opinion } from '../../opinion/opinion.js';
import { present } from '../../plain/present.js';
import { decimalsFor, formatNumber, formatSigned } from '../../words/format-number.js';
import { levelInWords } from '../../words/movement.js';
import { type Block, type Line, paragraph, type Section, strong, type Table } from '../document.js';
import { agreementInWords } from '../words/agreement.js';
import { intervalText, outcomeDecimals, pValueText } from '../words/report-numbers.js';
import { narrowWidth } from '../writers/narrow-width.js';

/** The analyses side by side, what each assumes, whether they agree, the effect sizes, and what could not be made. */
export function analysesSection(opinion: Opinion): Section {
  const decimals = outcomeDecimals(opinion);
  const estimates = allEstimates(opinion);
  const others = [...opinion.analyses, ...opinion.effectSizes];
  const failed = others.flatMap((answer) => (answer.kind === 'not-estimated' ? [answer.notEstimated] : []));
  return {
    id: 'analyses',
    heading: 'The analyses side by side',
    blocks: [
      ...(estimates.length === 0
        ? [paragraph('No analysis could be made.')]
        : [
            paragraph(agreementInWords(opinion)),
            figure(opinion, estimates, decimals),
            table(opinion, estimates, decimals),
            ...assumptions(estimates),
          ]),
      ...effectSizes(opinion),
      ...notMade(failed),
    ],
  };
}

/** The primary analysis first. */
function allEstimates(opinion: Opinion): readonly Estimate[] {
  const primary = opinion.primary.kind === 'estimated' ? [opinion.primary.estimate] : [];
  return [...primary, ...opinion.analyses.flatMap((answer) => (answer.kind === 'estimated' ? [answer.estimate] : []))];
}

function figure({ protocol }: Opinion, estimates: readonly Estimate[], decimals: number): Block {
  const data: IntervalChartData = {
    title: 'All analyses, against zero and the margin',
    rows: estimates.map((one) => ({
      label: labelOf(one),
      estimate: one.estimate,
      ...(one.interval === undefined ? {} : { lower: one.interval.lower, upper: one.interval.upper }),
    })),
    unit: protocol.outcome.unit,
    better: protocol.outcome.better,
    ...present({ margin: protocol.margin }),
    level: protocol.confidence,
    walls: estimates[0]?.walls ?? { treated: 0, untreated: 0 },
    decimals,
  };
  return {
    kind: 'figure',
    caption:
      'The same question answered in several ways. Where the intervals agree, the answer does not depend on the choice of method.',
    charts: [
      {
        wide: intervalChart(data),
        narrow: intervalChart(data, { width: narrowWidth }),
        description: describeIntervalChart(data),
      },
    ],
  };
}

function table({ protocol }: Opinion, estimates: readonly Estimate[], decimals: number): Table {
  return {
    kind: 'table',
    caption: `The analyses, difference of treated less untreated walls in ${protocol.outcome.unit}`,
    columns: [
      { header: 'Analysis' },
      { header: 'Difference', look: 'number' },
      { header: `${levelInWords(protocol.confidence)} interval`, look: 'number' },
      { header: 'p-value', look: 'number' },
      { header: 'Walls', look: 'number' },
    ],
    rows: estimates.map((estimate) => [
      [labelOf(estimate)],
      [formatSigned(estimate.estimate, decimals)],
      [intervalText(estimate.interval, decimals)],
      [pValueText(estimate)],
      [`${estimate.walls.treated} + ${estimate.walls.untreated}`],
    ]),
  };
}

function assumptions(estimates: readonly Estimate[]): Block[] {
  return [
    { kind: 'subheading', text: 'How each was made and what it assumes' },
    { kind: 'list', items: estimates.map(assumptionLine) },
  ];
}

function assumptionLine(estimate: Estimate): Line {
  const { label, quantity, method, assumptions } = estimateInWords(estimate);
  const taken = assumptions.length === 0 ? '' : ` Assumptions: ${assumptions.join('; ')}.`;
  return [strong(label), ` (${quantity}): ${method}.${drawsText(estimate)}${taken}`];
}

/** How far chance in the computation itself moves a Monte Carlo p-value. */
function drawsText({ monteCarlo }: Estimate): string {
  if (monteCarlo === undefined) return '';
  const { draws, pValueStandardError, seed } = monteCarlo;
  return ` ${formatNumber(draws, 0)} draws with seed ${seed}, which give the p-value to within a standard error of ${pValueStandardError.toPrecision(1)}.`;
}

function effectSizes({ effectSizes, protocol }: Opinion): Block[] {
  const estimates = effectSizes.flatMap((answer) => (answer.kind === 'estimated' ? [answer.estimate] : []));
  if (estimates.length === 0) return [];
  return [
    { kind: 'subheading', text: 'Effect sizes' },
    paragraph(
      'The same difference on scales that can be compared with other trials. They add no evidence of their own.',
    ),
    {
      kind: 'table',
      caption: 'Effect sizes',
      columns: [
        { header: 'Measure' },
        { header: 'Value', look: 'number' },
        { header: `${levelInWords(protocol.confidence)} interval`, look: 'number' },
        { header: 'Unit' },
      ],
      rows: estimates.map((estimate) => {
        const own =
          estimate.interval === undefined
            ? 2
            : Math.min(3, decimalsFor((estimate.interval.upper - estimate.interval.lower) / 2));
        const limits =
          estimate.interval === undefined
            ? 'none'
            : `${formatNumber(estimate.interval.lower, own)} to ${formatNumber(estimate.interval.upper, own)}`;
        return [[labelOf(estimate)], [formatNumber(estimate.estimate, own)], [limits], [estimate.unit]];
      }),
    },
    { kind: 'list', items: estimates.map(assumptionLine) },
  ];
}

function notMade(failed: readonly NotEstimated[]): Block[] {
  if (failed.length === 0) return [];
  const told = failed.map((one) => ({ label: labelOf(one), reason: reasonInWords(one.reason) }));
  const reasons = [...new Set(told.map(({ reason }) => reason))];
  const labelsOf = (reason: string) => told.flatMap((one) => (one.reason === reason ? [one.label] : [])).join('; ');
  return [
    { kind: 'subheading', text: 'What could not be computed, and why' },
    { kind: 'list', items: reasons.map((reason): Line => [strong(labelsOf(reason)), `: ${reason}.`]) },
  ];
}
