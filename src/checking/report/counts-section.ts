import { type CountsChartData, countsChart, describeCountsChart } from '../../charts/index.js';
import type { Visit } from '../../findings/visits.js';
import { type Block, type Figure, paragraph, type Section, type Table } from '../../report/document.js';
import { narrowWidth } from '../../report/writers/narrow-width.js';
import { isInWindow } from '../../trial/index.js';
import { countInWords } from '../../words/quantity.js';
import type { CountRow } from '../reading-counts.js';
import type { TrialOverview } from '../trial-overview.js';
import { dotsInText } from './dots-in-text.js';

/** How dots are shown: drawn on a page, or as characters on a terminal. */
export type Pictures = 'drawn' | 'text';

/** More rows than these do not fit one sheet of paper, nor more visits one line. */
const mostRows = 50;
const mostVisits = 48;
const mostVisitsNarrow = 16;

/** How many readings there are, by wall, visit and height. */
export function countsSection(overview: TrialOverview, pictures: Pictures): Section {
  const { visits, byWall, byHeight, protocol } = overview;
  const { instrument } = protocol.outcome;
  const total = visits.reduce((sum, { readings }) => sum + readings.length, 0);
  const blocks: readonly Block[] =
    total === 0
      ? [paragraph(`There is no reading of ${instrument} yet.`)]
      : [
          paragraph(
            `${countInWords(total, 'reading')} of ${instrument}, which decides, on ${countInWords(visits.length, 'visit')}. A visit ends where a place is read again on another day.`,
          ),
          ...picture('Readings by wall and visit', 'places read', byWall, pictures),
          ...(byHeight.length === 0
            ? [paragraph('No reading has a height, so heights cannot be counted.')]
            : picture('Readings by height and visit', 'walls read', byHeight, pictures)),
          visitsTable(overview),
        ];
  return { id: 'counts', heading: 'What was read', blocks };
}

function picture(title: string, counted: string, rows: readonly CountRow[], pictures: Pictures): readonly Block[] {
  if (pictures === 'text')
    return [
      paragraph(`${title} (● all ${counted} of that row, ◐ fewer, · none)`),
      { kind: 'command', text: dotsInText(rows) },
    ];
  const charts = chunks(rows, mostRows).flatMap((part) => {
    const data = (visits: number) => partsOf({ title, counted, rows: part }, visits);
    const narrow = data(mostVisitsNarrow);
    return data(mostVisits).map((wide, index, all) => ({
      wide: countsChart(wide),
      ...(all.length === narrow.length ? { narrow: countsChart(narrow[index] ?? wide, { width: narrowWidth }) } : {}),
      description: describeCountsChart(wide),
    }));
  });
  const figure: Figure = { kind: 'figure', caption: `${title}: ${counted}.`, charts };
  return [figure];
}

/** The visits of a chart in parts that fit a line. */
function partsOf(
  { title, counted, rows }: Pick<CountsChartData, 'title' | 'counted' | 'rows'>,
  most: number,
): readonly CountsChartData[] {
  const visits = rows[0]?.counts.length ?? 0;
  const parts = Math.ceil(visits / most);
  return Array.from({ length: parts }, (_, part) => {
    const [from, to] = [part * most, Math.min(visits, (part + 1) * most)];
    return {
      ...{ counted, visits: to - from, firstVisit: from + 1 },
      title: parts === 1 ? title : `${title}, visits ${from + 1} to ${to}`,
      rows: rows.map((row) => ({ ...row, counts: row.counts.slice(from, to) })),
    };
  });
}

function visitsTable({ visits, protocol: { windows } }: TrialOverview): Table {
  const windowOf = ({ from, to }: Visit) => {
    if (windows === undefined) return 'none stated';
    const inside = (['before', 'after'] as const).filter(
      (one) => isInWindow(from, windows[one]) || isInWindow(to, windows[one]),
    );
    return inside.length === 0 ? 'outside' : inside.join(' and ');
  };
  return {
    kind: 'table',
    caption: 'The visits, with the windows of the plan',
    columns: [
      { header: 'No.', look: 'number' },
      { header: 'From', look: 'whole' },
      { header: 'To', look: 'whole' },
      { header: 'Readings', look: 'number' },
      { header: 'Window' },
    ],
    rows: visits.map((visit, index) => [
      [`${index + 1}`],
      [visit.from],
      [visit.to],
      [`${visit.readings.length}`],
      [windowOf(visit)],
    ]),
  };
}

function chunks<T>(items: readonly T[], size: number): T[][] {
  return Array.from({ length: Math.ceil(items.length / size) }, (_, index) =>
    items.slice(index * size, (index + 1) * size),
  );
}
