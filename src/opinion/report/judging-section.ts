import { formatPValue, formatSigned } from '../../charts/format-number.js';
import { type ChoicesChartData, choicesChart, describeChoicesChart } from '../../charts/index.js';
import type { Judging, Threat } from '../judging/judging.js';
import type { Opinion } from '../opinion.js';
import { levelInWords } from '../words/movement.js';
import { blindingBlocks } from './blinding-blocks.js';
import { type Block, type Line, paragraph, quoted, type Section, strong } from './document.js';
import { narrowWidth } from './narrow-width.js';
import { marginBlocks, passMarkBlocks } from './pass-mark-blocks.js';
import { intervalText, outcomeDecimals } from './report-numbers.js';
import { standInBlocks } from './stand-in-blocks.js';

/** What could fool a reader of the verdict: every other defensible answer, every threat with its number, and the stand-ins. */
export function judgingSection(opinion: Opinion): Section | undefined {
  const { judging } = opinion;
  if (judging === undefined) return undefined;
  return {
    id: 'judging',
    heading: 'What could fool us',
    blocks: [
      ...marginBlocks(opinion),
      ...choices(opinion, judging),
      ...threats(judging.threats),
      ...blindingBlocks(judging.blinding),
      ...passMarkBlocks(opinion, judging),
      ...secondary(opinion, judging),
      ...standInBlocks(judging.standIns, opinion.protocol.claimedField_v_per_m),
      paragraph(
        strong('Limits.'),
        ' These checks were chosen beforehand by the software, not by the data, but they are many: by chance alone about one in twenty warns at 95 %. None of them moves the verdict. A check that finds nothing has not shown that there is nothing. This is no certificate; local codes, licensed practice and heritage consent come first.',
      ),
    ],
  };
}

function choices(opinion: Opinion, { choices, agreement }: Judging): readonly Block[] {
  const { primary, protocol } = opinion;
  if (primary.kind !== 'estimated') return [];
  const others = choices.flatMap((answer) => (answer.kind === 'estimated' ? [answer.estimate] : []));
  const rowOf = (isPrimary: boolean) => (estimate: (typeof others)[number]) => ({
    label: isPrimary ? 'As planned' : estimate.label,
    estimate: estimate.estimate,
    ...(estimate.interval && { lower: estimate.interval.lower, upper: estimate.interval.upper }),
    isPrimary,
  });
  const data: ChoicesChartData = {
    title: 'Would the answer change? Every defensible choice, in order',
    rows: [...[primary.estimate].map(rowOf(true)), ...others.map(rowOf(false))],
    unit: protocol.outcome.unit,
    better: protocol.outcome.better,
    ...(protocol.margin === undefined ? {} : { margin: protocol.margin }),
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
      `The question was answered again with every choice that could have been defended beforehand: other methods, season and weather taken off, other windows, other instruments where cores calibrate them, readings below the detection limit estimated, heights, depths or single stations left out, blocks ignored.${agree}`,
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

const outcomes: Readonly<Record<Threat['outcome'], string>> = { warns: 'warns', quiet: 'quiet', open: 'open' };

function threats(all: readonly Threat[]): readonly Block[] {
  if (all.length === 0) return [];
  const order: readonly Threat['outcome'][] = ['warns', 'open', 'quiet'];
  const sorted = order.flatMap((outcome) => all.filter((threat) => threat.outcome === outcome));
  return [
    { kind: 'subheading', text: 'The threats, fact by fact' },
    paragraph(
      '“Warns”: larger than chance usually makes it, or enough to change the verdict. “Open”: this trial cannot tell. “Quiet”: looked for and not found. Bang’s index of guesses, side by side, is 1 where all are right, 0 as for a coin, −1 where all are wrong; James’s over both sides is 0 where all are right, 0.5 as for a coin, 1 where nobody knows.',
    ),
    {
      kind: 'table',
      caption: 'What was found (facts), where it would push the result, and what it would take to change the verdict',
      columns: [
        { header: 'Threat' },
        { header: 'Fact', look: 'prose' },
        { header: 'Would push' },
        { header: 'To change the verdict', look: 'prose' },
      ],
      rows: sorted.map(({ name, outcome, fact, direction, turn }): Line[] => [
        [strong(name), ` (${outcomes[outcome]})`],
        [quoted(fact)],
        [direction],
        [turn],
      ]),
    },
    { kind: 'subheading', text: 'What follows (inference), and what would have avoided it' },
    {
      kind: 'list',
      items: sorted.map(
        ({ name, inference, avoid }): Line => [strong(`${name}.`), ` ${inference} `, `Avoided by: ${avoid}`],
      ),
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
            : answer.notEstimated.reason,
        ],
        [adjustedPValue === undefined ? 'none' : formatPValue(adjustedPValue)],
        [inSequence === undefined ? 'not tested' : sequenceWords[inSequence]],
      ]),
    },
  ];
}
