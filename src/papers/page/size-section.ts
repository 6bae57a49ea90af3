import { type ChancesChartData, chancesChart, describeChancesChart } from '../../charts/index.js';
import { fewestVisitsForRest } from '../../planning/calendar/trial-calendar.js';
import type { TrialPlan } from '../../planning/make-plan.js';
import type { DesignRow } from '../../planning/walls-needed/design-table.js';
import { wallsOfDesign } from '../../planning/walls-needed/planned-design.js';
import type { WallsNeeded } from '../../planning/walls-needed/walls-needed.js';
import { type Block, type Line, paragraph, type Section } from '../../report/document.js';
import { formatNumber } from '../../words/format-number.js';
import { countInWords } from '../../words/quantity.js';
import { computedDifference, statedDifference } from './plan-words.js';

/** How many walls it takes, and what more cores on the same walls are worth. */
export function sizeSection(planned: TrialPlan): Section {
  return {
    id: 'size',
    heading: 'How many walls, and what they cost',
    blocks:
      planned.size === undefined
        ? [noSize]
        : [...answers(planned, planned.size), ...pictures(planned, planned.size.table)],
  };
}

const noSize = paragraph(
  'Two walls stay two: with a second pair of walls or more, drawn by chance, the trial would begin to say something about the treatment.',
);

type Size = NonNullable<TrialPlan['size']>;

function answers({ comparison, wanted, plan }: TrialPlan, size: Size): readonly Block[] {
  const unit = plan.outcome.unit;
  const walls = wallsOfDesign(comparison.design);
  const effect = statedDifference(wanted.effect, unit);
  const smallest =
    size.smallestShown === undefined
      ? 'No effect would be shown so often, for drop-out leaves too few walls.'
      : `An effect of ${computedDifference(size.smallestShown, unit)} would be distinguished from zero with that chance.`;
  return [
    paragraph(
      `To find ${effect} worthwhile with a chance of ${percent(wanted.chance)}, ${neededInWords(size.needed)} This plan has ${countInWords(walls, 'wall')}. Its interval would be ${computedDifference(size.width, unit)} wide on average. ${smallest}`,
    ),
    ...(size.neededAtEnds === undefined ? [] : [pilotParagraph(size.neededAtEnds)]),
    ...(size.cheapest === undefined
      ? [paragraph(`None of the designs below finds it with a chance of ${percent(wanted.chance)}.`)]
      : [cheapestParagraph(size.cheapest, plan.planning.costs?.currency)]),
  ];
}

function neededInWords(needed: WallsNeeded): string {
  return needed.kind === 'found'
    ? `it takes ${needed.walls} walls in all (${percent(needed.chance)}).`
    : `not even ${needed.most} walls are enough (${percent(needed.chance)}).`;
}

/** A small pilot misleads, and this is by how much. */
function pilotParagraph([lower, upper]: readonly [WallsNeeded, WallsNeeded]): Block {
  const walls = (one: WallsNeeded) => (one.kind === 'found' ? `${one.walls}` : `more than ${one.most}`);
  return paragraph(
    `The pilot leaves this open: with the smallest spread between walls that its interval holds, ${walls(lower)} walls would do; with the largest, it takes ${walls(upper)}.`,
  );
}

function cheapestParagraph({ walls, sampling, found, cost }: DesignRow, currency: string | undefined): Block {
  const visits = sampling.visitsBefore + sampling.visitsAfter;
  const price = cost === undefined ? '' : `, for ${money(cost, currency)}`;
  const rest =
    sampling.visitsBefore < fewestVisitsForRest
      ? ` With fewer than ${fewestVisitsForRest} visits before, though, nothing shows whether walls were at rest.`
      : '';
  const which = cost === undefined ? 'The smallest' : 'The cheapest';
  return paragraph(
    `${which} of the designs below that does it has ${countInWords(walls, 'wall')}, ${countInWords(sampling.stations, 'station')} each and ${countInWords(visits, 'visit')} in all${price}; its chance is ${percent(found)}.${rest}`,
  );
}

/** So many rows stand in the page; all of them in `designs.csv`. */
function pictures({ wanted, plan, comparison }: TrialPlan, table: readonly DesignRow[]): readonly Block[] {
  const { costs } = plan.planning;
  const visits = Math.max(comparison.sampling.visitsBefore, comparison.sampling.visitsAfter);
  const shown = table.filter(({ sampling }) => sampling.visitsBefore === visits);
  const chart = chartOf(shown, wanted, plan.outcome.unit, visits);
  return [
    {
      kind: 'figure',
      caption:
        'More stations on the same walls soon stop helping: they leave the differences between walls as they are.',
      charts: [
        {
          wide: chancesChart(chart),
          narrow: chancesChart(chart, { width: 340 }),
          description: describeChancesChart(chart),
        },
      ],
    },
    grid(shown, visits, costs?.currency),
  ];
}

/** A row for each number of walls, a column for each number of stations, and its cost beside. */
function grid(rows: readonly DesignRow[], visits: number, currency: string | undefined): Block {
  const stations = [...new Set(rows.map(({ sampling }) => sampling.stations))];
  const hasCosts = rows.some(({ cost }) => cost !== undefined);
  const unit = currency === undefined || currency === '' ? '' : `, costs in ${currency}`;
  const at = (walls: number, count: number) =>
    rows.find((row) => row.walls === walls && row.sampling.stations === count);
  return {
    kind: 'table',
    caption: `The chance by walls and by stations on each, with ${countInWords(visits, 'visit')} in each window${unit}. The file designs.csv has other numbers of visits, and how often each design rules a useless treatment out`,
    columns: [
      { header: 'Walls', look: 'whole' },
      ...stations.flatMap((count) => [
        { header: countInWords(count, 'station'), look: 'number' as const },
        ...(hasCosts ? [{ header: 'cost', look: 'number' as const }] : []),
      ]),
    ],
    rows: [...new Set(rows.map(({ walls }) => walls))].map((walls): readonly Line[] => [
      [`${walls}`],
      ...stations.flatMap((count): readonly Line[] => {
        const row = at(walls, count);
        const chance = row === undefined ? '' : percent(row.found);
        return hasCosts ? [[chance], [row?.cost === undefined ? '' : money(row.cost, undefined)]] : [[chance]];
      }),
    ]),
  };
}

function chartOf(
  rows: readonly DesignRow[],
  wanted: TrialPlan['wanted'],
  unit: string,
  visits: number,
): ChancesChartData {
  const stations = [...new Set(rows.map(({ sampling }) => sampling.stations))];
  return {
    title: 'Chance by walls and stations',
    of: `of finding an effect of ${statedDifference(wanted.effect, unit)} worthwhile, with ${countInWords(visits, 'visit')} in each window`,
    wanted: wanted.chance,
    lines: stations.map((count) => ({
      label: `${countInWords(count, 'station')} a wall`,
      points: rows
        .filter(({ sampling }) => sampling.stations === count)
        .map(({ walls, found }) => ({ walls, chance: found })),
    })),
  };
}

function percent(chance: number): string {
  return chance > 0.995 ? 'over 99 %' : `${Math.round(100 * chance)} %`;
}

function money(amount: number, currency: string | undefined): string {
  const figure = formatNumber(Math.round(amount), 0);
  return currency === undefined || currency === '' ? figure : `${figure} ${currency}`;
}
