import { type ChoicesChartData, choicesChart, describeChoicesChart } from '../../charts/index.js';
import { labelOf, reasonInWords } from '../../labels/index.js';
import type { Judging } from '../../opinion/judging/judging.js';
import type { Opinion } from '../../opinion/opinion.js';
import { present } from '../../plain/present.js';
import { formatPValue, formatSigned } from '../../words/format-number.js';
import { levelInWords } from '../../words/movement.js';
import { type Block, type Line, paragraph, quoted, type Section } from '../document.js';
import { intervalText, outcomeDecimals } from '../words/report-numbers.js';
import { narrowWidth } from '../writers/narrow-width.js';
import { blindingBlocks } from './blinding-blocks.js';
import { marginBlocks, passMarkBlocks } from './pass-mark-blocks.js';
import { standInBlocks } from './stand-in-blocks.js';

/** Whether the answer would change: every other defensible analysis, guesses, the pass mark, further outcomes and stand-ins. */
export function judgingSection(opinion: Opinion): Section | undefined {
  const { judging } = opinion;
  if (judging === undefined) return undefined;
  return {
    id: 'judging',
    heading: 'Robustness',
    blocks: [
      ...marginBlocks(opinion),
      ...choices(opinion, judging),
      ...blindingBlocks(judging.blinding),
      ...passMarkBlocks(opinion, judging),
      ...secondary(opinion, judging),
      ...standInBlocks(judging.standIns, opinion.protocol.claimedField_v_per_m),
    ],
  };
}

function choices(opinion: Opinion, { choices, agreement }: Judging): readonly Block[] {
  const { primary, protocol } = opinion;
  if (primary.kind !== 'estimated') return [];
  const others = choices.flatMap((answer) => (answer.kind === 'estimated' ? [answer.estimate] : []));
  const rowOf = (isPrimary: boolean) => (estimate: (typeof others)[number]) => ({
    label: isPrimary ? 'As planned' : labelOf(estimate),
    estimate: estimate.estimate,
    ...(estimate.interval && { lower: estimate.interval.lower, upper: estimate.interval.upper }),
    isPrimary,
  });
  const data: ChoicesChartData = {
    title: 'Would the answer change? Every defensible choice, in order',
    rows: [...[primary.estimate].map(rowOf(true)), ...others.map(rowOf(false))],
    unit: protocol.outcome.unit,
    better: protocol.outcome.better,
    ...present({ margin: protocol.margin }),
    level: protocol.confidence,
    walls: primary.estimate.walls,
    decimals: outcomeDecimals(opinion),
  };
  const agree =
    agreement.of === 0
      ? ''
      : ` Held against zero and the margin, ${agreement.agree} of ${agreement.of} answers with an interval, the planned one included, lead to the same verdict.`;
  return [
    paragraph(
      `The question was answered again with every choice that could have been defended beforehand. The choices are other methods, adjustment for season and weather, other windows, and other instruments where cores calibrate them. Further ones estimate readings below the detection limit, exclude heights, depths or single stations, or ignore blocks.${agree}`,
    ),
    {
      kind: 'figure',
      caption:
        'They share the same walls, so that they agree more than independent trials would. The planned answer counts.',
      charts: [
        {
          wide: choicesChart(data),
          narrow: choicesChart(data, { width: narrowWidth }),
          description: describeChoicesChart(data),
        },
      ],
    },
  ];
}

const sequenceWords = {
  rejected: 'a difference',
  'not-rejected': 'none shown',
  'not-tested': 'not tested: one before it showed none',
} as const;

function secondary({ protocol }: Opinion, judging: Judging): readonly Block[] {
  if (judging.secondary.length === 0) return [];
  return [
    { kind: 'subheading', text: 'Further outcomes' },
    paragraph('In the order of the plan. The verdict rests on the primary outcome alone.'),
    {
      kind: 'table',
      caption: 'Further outcomes, treated less untreated walls',
      columns: [
        { header: 'Outcome' },
        { header: `Difference and ${levelInWords(protocol.confidence)} interval`, look: 'number' },
        { header: 'p-value adjusted (Holm)', look: 'number' },
        { header: 'In the plan’s order' },
      ],
      rows: judging.secondary.map(({ outcome, answer, inSequence, adjustedPValue }): Line[] => [
        [quoted(`${outcome.quantity} (${outcome.instrument}, ${outcome.unit})`)],
        [
          answer.kind === 'estimated'
            ? `${formatSigned(answer.estimate.estimate, 2)}, ${intervalText(answer.estimate.interval, 2)}`
            : reasonInWords(answer.notEstimated.reason),
        ],
        [adjustedPValue === undefined ? 'none' : formatPValue(adjustedPValue)],
        [inSequence === undefined ? 'not tested' : sequenceWords[inSequence]],
      ]),
    },
  ];
}
