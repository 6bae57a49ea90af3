import type { ArmMeans, Estimate, Primary } from '../../analysis/index.js';
import {
  type ConfidenceCurveChartData,
  confidenceCurveChart,
  describeConfidenceCurveChart,
} from '../../charts/index.js';
import { estimateInWords, reasonInWords } from '../../labels/index.js';
import type { Opinion } from '../../opinion/opinion.js';
import { formatNumber, formatSigned, formatStated } from '../../words/format-number.js';
import { levelInWords } from '../../words/movement.js';
import { countInWords } from '../../words/quantity.js';
import { type Block, type Line, paragraph, quoted, type Section, type Table } from '../document.js';
import { differenceInWords } from '../words/difference-in-words.js';
import { intervalText, outcomeDecimals, pValueText } from '../words/report-numbers.js';
import { narrowWidth } from '../writers/narrow-width.js';
import { relativeBlocks } from './relative-blocks.js';

/** The primary difference: in words, against zero and the margin, and as a table; then the arms' means behind it. */
export function numbersSection(opinion: Opinion): Section {
  const decimals = outcomeDecimals(opinion);
  const { arms } = opinion;
  return {
    id: 'numbers',
    heading: 'The numbers',
    blocks: [
      paragraph('The verdict as it stands in opinion.json: ', quoted(opinion.verdict.sentence)),
      ...(opinion.primary.kind === 'estimated'
        ? estimated(opinion, opinion.primary.estimate, decimals)
        : notEstimated(opinion, opinion.primary, decimals)),
      ...(arms.length === 0
        ? [paragraph('No wall has both a before and an after value.')]
        : [armTable(opinion, arms, decimals)]),
    ],
  };
}

function estimated(opinion: Opinion, estimate: Estimate, decimals: number): Block[] {
  const {
    protocol,
    changes: { sides },
  } = opinion;
  const { unit, quantity } = protocol.outcome;
  const words =
    sides === undefined
      ? []
      : [
          paragraph(
            `In ${quantity}, ${differenceInWords({ difference: estimate.estimate, changes: sides, unit, decimals, walls: sizeOfSides(estimate) })}${intervalClause(estimate, decimals)}.`,
          ),
        ];
  return [
    ...words,
    ...howToRead(opinion, estimate),
    primaryTable(opinion, estimate, decimals),
    ...curveFigure(opinion, estimate, decimals),
    ...relativeBlocks(opinion),
  ];
}

function sizeOfSides({ walls }: Pick<Estimate, 'walls'>): 'wall' | 'walls' {
  return walls.treated + walls.untreated === 2 ? 'wall' : 'walls';
}

function intervalClause({ interval, unit }: Estimate, decimals: number): string {
  if (interval === undefined) return '';
  return ` (as a signed difference, ${levelInWords(interval.level)} interval from ${formatSigned(interval.lower, decimals)} to ${formatSigned(interval.upper, decimals)} ${unit})`;
}

const unitsInWords = { wall: 'Walls', site: 'Sites', block: 'Blocks', strip: 'Stretches of wall' } as const;

function primaryTable(
  { protocol, primary, marginOrigin, units }: Opinion,
  estimate: Estimate,
  decimals: number,
): Table {
  const { unit, better } = protocol.outcome;
  const row = (name: string, value: string): readonly Line[] => [[name], [value]];
  const signedMargin = protocol.margin === undefined ? undefined : (better === 'lower' ? -1 : 1) * protocol.margin;
  return {
    kind: 'table',
    caption: 'The primary analysis',
    columns: [{ header: 'What' }, { header: 'Value' }],
    rows: [
      row('Difference, treated less untreated', `${formatSigned(estimate.estimate, decimals)} ${unit}`),
      row(
        `${levelInWords(estimate.interval?.level ?? protocol.confidence)} interval`,
        estimate.interval === undefined ? 'none' : `${intervalText(estimate.interval, decimals)} ${unit}`,
      ),
      row(
        'Margin (smallest difference worth paying for)',
        signedMargin === undefined
          ? 'not stated'
          : `${formatStated(signedMargin)} ${unit}${marginOrigin.kind === 'from-pass-mark' ? ', from the pass mark of the plan' : ''}`,
      ),
      ...(estimate.standardError === undefined
        ? []
        : [row('Standard error', `${formatNumber(estimate.standardError, decimals + 1)} ${unit}`)]),
      ...(estimate.degreesOfFreedom === undefined
        ? []
        : [
            row(
              'Degrees of freedom',
              formatNumber(estimate.degreesOfFreedom, Number.isInteger(estimate.degreesOfFreedom) ? 0 : 1),
            ),
          ]),
      row('p-value for no difference, two-sided', pValueText(estimate)),
      row(
        `${unitsInWords[units.kind]}, treated and untreated`,
        `${estimate.walls.treated} and ${estimate.walls.untreated}`,
      ),
      ...(primary.kind === 'estimated' ? [row('Method', estimateInWords(estimate).method)] : []),
    ],
  };
}

function howToRead({ protocol }: Opinion, estimate: Estimate): Block[] {
  if (estimate.interval === undefined) return [];
  const level = levelInWords(estimate.interval.level);
  const share = Number((estimate.interval.level * 100).toPrecision(6));
  return [
    paragraph(
      `How to read the interval: ${sizeOfSides(estimate) === 'wall' ? heldByTwoWalls(share) : `if such a trial were made again and again, about ${share} of 100 intervals made in this way would hold the true difference`}. Values inside the ${level} interval fit these readings; values outside fit them poorly. A minus sign means that the treated ${sizeOfSides(estimate)} went lower than the untreated; here ${protocol.outcome.better} is better.`,
    ),
    paragraph(
      'The p-value is the chance of a difference at least this large, in either direction, if the treatment did nothing and the assumptions of the method held. It is not the chance that the treatment does nothing, and it says nothing of how large the difference is.',
    ),
  ];
}

/** All intervals at once, where the answer has them. */
function curveFigure({ protocol, confidenceCurve: curve }: Opinion, estimate: Estimate, decimals: number): Block[] {
  if (curve === undefined) return [];
  const { unit, better } = protocol.outcome;
  const alpha = Number((1 - protocol.confidence).toPrecision(6));
  const data: ConfidenceCurveChartData = {
    title: 'Every difference, and how well it fits',
    ...{ ...curve, unit, better, walls: estimate.walls, decimals },
    ...(protocol.margin === undefined ? {} : { margin: protocol.margin }),
  };
  return [
    {
      kind: 'figure',
      caption: `A confidence curve: the higher it stands over a difference, the better that difference fits these readings. It crosses a p-value of ${formatStated(alpha)} at the limits of the ${levelInWords(protocol.confidence)} interval. It is not how probable a difference is.`,
      charts: [
        {
          wide: confidenceCurveChart(data),
          narrow: confidenceCurveChart(data, { width: narrowWidth }),
          description: describeConfidenceCurveChart(data),
        },
      ],
    },
  ];
}

/** Counted in `tests/simulation/verdicts.md`, where the interval of two walls is too short. */
function heldByTwoWalls(share: number): string {
  return `if these two walls could be followed again and again, about ${share} of 100 intervals made in this way should include the true difference. In simulated pairs of walls, read 12 times in each window, the coverage of 95 % intervals was 86 to 93 %`;
}

function notEstimated(
  { protocol, changes: { sides } }: Opinion,
  primary: Extract<Primary, { kind: 'not-estimated' }>,
  decimals: number,
): Block[] {
  const { unit } = protocol.outcome;
  const seen =
    primary.difference === undefined || sides === undefined
      ? []
      : [
          paragraph(
            `What was seen, without an interval: ${differenceInWords({ difference: primary.difference, changes: sides, unit, decimals, walls: sizeOfSides(primary) })} (${formatSigned(primary.difference, decimals)} ${unit}, treated less untreated). Nothing in this trial says how far chance alone would have moved that figure.`,
          ),
        ];
  return [
    paragraph(
      `The primary difference has no interval: ${reasonInWords(primary.reason)}. In the comparison: ${countInWords(primary.walls.treated, 'treated wall')} and ${countInWords(primary.walls.untreated, 'untreated wall')}.`,
    ),
    ...seen,
    ...(protocol.margin === undefined
      ? [paragraph('No margin was stated.')]
      : [
          paragraph(
            `The margin that the plan called worthwhile: ${formatStated(protocol.margin)} ${unit}, ${protocol.outcome.better} being better.`,
          ),
        ]),
  ];
}

function armTable({ protocol }: Opinion, arms: readonly ArmMeans[], decimals: number): Table {
  const role = (name: string) => protocol.arms.find((arm) => arm.arm === name)?.role ?? '';
  return {
    kind: 'table',
    caption: `Means over walls, ${protocol.outcome.quantity} in ${protocol.outcome.unit}`,
    columns: [
      { header: 'Arm' },
      { header: 'Role' },
      { header: 'Walls', look: 'number' },
      { header: 'Before', look: 'number' },
      { header: 'After', look: 'number' },
      { header: 'Change', look: 'number' },
    ],
    rows: arms.map((arm) => [
      [quoted(arm.arm)],
      [role(arm.arm)],
      [`${arm.walls}`],
      [arm.before === undefined ? 'none' : formatNumber(arm.before, decimals)],
      [formatNumber(arm.after, decimals)],
      [arm.before === undefined ? 'none' : formatSigned(arm.change, decimals)],
    ]),
  };
}
