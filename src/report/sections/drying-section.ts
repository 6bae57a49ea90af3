import { type DryingArm, type DryingChartData, describeDryingChart, dryingChart } from '../../charts/index.js';
import type { DryingShown } from '../../findings/drying/drying-part.js';
import { dryingShapeInWords, reasonInWords } from '../../labels/index.js';
import type { Opinion } from '../../opinion/opinion.js';
import { present } from '../../plain/present.js';
import { formatNumber } from '../../words/format-number.js';
import { countInWords, listInWords } from '../../words/quantity.js';
import { type Block, type Figure, type Line, paragraph, quoted, type Section, type Table } from '../document.js';
import { dayText, outcomeDecimals } from '../words/report-numbers.js';
import { narrowWidth } from '../writers/narrow-width.js';
import { adjustedBlocks, comparisonBlocks } from './drying-answers-blocks.js';
import { dryingFactsBlocks } from './drying-facts-blocks.js';
import { dryingTimesBlocks } from './drying-times-blocks.js';

/** How the walls dried: curves, rates, losses and times of the arms, and what season and weather change. */
export function dryingSection(opinion: Opinion): Section | undefined {
  const { drying } = opinion;
  if (drying === undefined) return undefined;
  const blocks =
    drying.kind === 'shown'
      ? shown(opinion, drying)
      : [
          paragraph(`No curves of drying are shown: ${reasonInWords(drying.reason)}.`),
          ...dryingFactsBlocks(drying, opinion),
        ];
  return { id: 'drying', heading: 'How the walls dried', blocks };
}

function shown(opinion: Opinion, drying: DryingShown): readonly Block[] {
  return [
    paragraph(
      `${startText(drying)} The last visit up to then counts as the start. Untreated walls dry too, by season and by being left alone: what matters is how far the curves part.`,
    ),
    figure(opinion, drying),
    lossesTable(opinion, drying),
    ...comparisonBlocks(opinion, drying.answers),
    paragraph(shapesText(drying)),
    ...prompted(drying),
    ...dryingTimesBlocks(drying, opinion),
    ...adjustedBlocks(opinion, drying.adjusted),
    ...dryingFactsBlocks(drying, opinion),
    ...leftOut(drying),
  ];
}

function startText({ start, lastStart, startIs }: DryingShown): string {
  if (startIs === 'end-of-before-window')
    return `Time is counted from ${dayText(start)}, the end of the before window, for no day of treatment was recorded.`;
  if (start === lastStart) return `Time is counted from ${dayText(start)}, the day of the treatment.`;
  return `Time is counted for each wall from its own treatment, between ${dayText(start)} and ${dayText(lastStart)}. For an untreated wall it is counted from that of the treated walls of its block or, without any, from the median day of the trial.`;
}

function figure({ protocol }: Opinion, drying: DryingShown): Figure {
  const { quantity, unit } = protocol.outcome;
  const data: DryingChartData = {
    title: 'Every wall over time',
    quantity,
    unit,
    start: { day: drying.start, label: startLabel(drying) },
    arms: armsOf(drying),
    level: protocol.confidence,
    ...present({ weather: drying.weather }),
  };
  return {
    kind: 'figure',
    caption: `Each wall is the mean over its stations.${drying.weather === undefined ? ' No record of the air lies beside it.' : ' Where the grey bars are tall the air takes water from any wall.'}`,
    charts: [
      {
        wide: dryingChart(data),
        narrow: dryingChart(data, { width: narrowWidth }),
        description: describeDryingChart(data),
      },
    ],
  };
}

function startLabel({ start, lastStart, startIs }: DryingShown): string {
  if (startIs === 'end-of-before-window') return 'start';
  return start === lastStart ? 'treatment' : 'first treatment';
}

function armsOf({ curves, means }: DryingShown): readonly DryingArm[] {
  return means.map(({ arm, visits }) => ({
    arm,
    walls: curves
      .filter((curve) => curve.arm === arm)
      .map(({ days, moisture }) => moisture.map((value, at) => ({ day: days[at] ?? '', value }))),
    means: visits,
  }));
}

function lossesTable(opinion: Opinion, { losses, period_d }: DryingShown): Table {
  const { quantity, unit } = opinion.protocol.outcome;
  const decimals = outcomeDecimals(opinion);
  return {
    kind: 'table',
    caption: `What the walls of each arm lost by day ${formatNumber(period_d, 0)}: ${quantity} in ${unit}, means over walls`,
    columns: [
      { header: 'Arm' },
      { header: 'Walls', look: 'number' },
      { header: 'At the start', look: 'number' },
      { header: 'Lost', look: 'number' },
      { header: 'Lost in 30 days', look: 'number' },
      { header: 'Drying index', look: 'number' },
    ],
    rows: losses.map(({ arm, walls, start, lost, lostIn30Days, index }): readonly Line[] => [
      [quoted(arm)],
      [formatNumber(walls, 0)],
      [formatNumber(start, decimals)],
      [formatNumber(lost, decimals)],
      [formatNumber(lostIn30Days, decimals + 1)],
      [index === undefined ? 'none' : formatNumber(index, 2)],
    ]),
  };
}

function shapesText({ shapes, changes }: DryingShown): string {
  const counted = shapes.map(
    ({ shape, walls }) =>
      `${shape === 'none' ? 'no fall beyond the scatter of the readings' : dryingShapeInWords(shape)}: ${countInWords(walls, 'wall')}`,
  );
  return `The shape that describes a wall’s curve best by AICc: ${counted.join('; ')}.${changesText(changes)} Shapes within 2 of the best criterion cannot be distinguished (Burnham and Anderson 2002). A yearly cycle biases curves too. Where they rise and fall with the seasons, a shape says little about how a wall dried.`;
}

/** Walls told one by one; further ones are in opinion.json. */
const mostTold = 6;

function changesText(changes: DryingShown['changes']): string {
  if (changes.length === 0) return '';
  const told = changes.slice(0, mostTold).map(({ wall, day, interval }) => {
    const limits =
      interval === undefined
        ? 'the readings set it no limits'
        : `${formatNumber(interval.lower, 0)} to ${formatNumber(interval.upper, 0)}`;
    return `${wall} on day ${formatNumber(day, 0)} (${limits})`;
  });
  const more = changes.length - told.length;
  return ` The constant rate gave way to a falling one in ${told.join(', ')}${more === 0 ? '' : ` and ${countInWords(more, 'further wall')}`}.`;
}

function prompted({ prompt, period_d }: DryingShown): readonly Block[] {
  if (prompt === undefined) return [];
  const range = ({ least, most }: { readonly least: number; readonly most: number }) =>
    least === most ? formatNumber(least, 0) : `${formatNumber(least, 0)} to ${formatNumber(most, 0)}`;
  return [
    paragraph(
      `How long to wait: a month for every 25 mm of wall, as the trade has it (common practice, no source), makes ${range(prompt.days)} days for walls of ${range(prompt.thickness_mm)} mm. These were followed for ${formatNumber(period_d, 0)} days. That is a prompt for the calendar and never a test: drying takes longer with the square of the thickness.`,
    ),
  ];
}

function leftOut({ leftOut: gone }: DryingShown): readonly Block[] {
  if (gone.length === 0) return [];
  const told = gone.map(({ wall, reason }) => ({ wall, reason: reasonInWords(reason) }));
  const items = [...new Set(told.map(({ reason }) => reason))].map((reason): Line => {
    const walls = told.flatMap((one) => (one.reason === reason ? [one.wall] : []));
    return [`Without a curve: ${listInWords(walls)} (${reason}).`];
  });
  return [{ kind: 'list', items }];
}
