import { displayText } from '../words/display-text.js';
import { type ChartOptions, type ChartSpecification, defaultChartWidth } from './chart-specification.js';
import { countOf } from './count-of.js';
import { frame } from './frame.js';
import { symbols, texts } from './marks.js';
import { shortenMiddle } from './text-layout.js';
import { fontSize, groupStyle, ink } from './theme.js';

export interface CountsChartData {
  readonly title: string;
  /** What is counted, such as `places read`. */
  readonly counted: string;
  /** In the order of time: the columns are numbered from 1, as in the table beside the chart. */
  readonly visits: number;
  /** `most` is what makes a full dot of that row. */
  readonly rows: readonly { readonly label: string; readonly most: number; readonly counts: readonly number[] }[];
  /** Number of the first visit; 1 unless told. */
  readonly firstVisit?: number;
}

const left = 118;
const right = 12;
const rowHeight = 15;
const widestColumn = 34;
const largestDot = 90;
const dot = { shape: 'circle', stroke: ink.text, width: 0.8 } as const;

/**
 * Dots for what was read: a full dot where all of a row was, a smaller one where less was, a ring where nothing was.
 *
 * @example countsChart({ title: 'Readings', counted: 'places read', visits: 1, rows: [{ label: 'W01', most: 3, counts: [3] }] }).title.text // ['Readings']
 */
export function countsChart(data: CountsChartData, options: ChartOptions = {}): ChartSpecification {
  const width = options.width ?? defaultChartWidth;
  const column = Math.min(widestColumn, (width - left - right) / Math.max(1, data.visits));
  const height = data.rows.length * rowHeight;
  const dots = data.rows.flatMap(({ most, counts }, row) =>
    counts.map((count, visit) => ({
      x: (visit + 0.5) * column,
      y: (row + 0.5) * rowHeight,
      share: most === 0 ? 0 : count / most,
    })),
  );
  const every = Math.ceil(18 / column);
  const numbers = Array.from({ length: data.visits }, (_, visit) => visit)
    .filter((visit) => visit % every === 0)
    .map((visit) => ({ text: `${visit + (data.firstVisit ?? 1)}`, x: (visit + 0.5) * column, y: height + 10 }));
  return frame({
    title: displayText(data.title),
    subtitle: `Full dot: all ${displayText(data.counted)} of that row; smaller: fewer; ring: none. The numbers below are those of the visits.`,
    description: describeCountsChart(data),
    ...{ width, left, right, height, above: 6, below: 26 },
    layers: [
      symbols(
        dots.filter(({ share }) => share > 0).map(({ x, y, share }) => ({ x, y, size: largestDot * share })),
        { ...dot, fill: groupStyle(0).colour },
      ),
      symbols(
        dots.filter(({ share }) => share === 0).map(({ x, y }) => ({ x, y, size: 14 })),
        { ...dot, fill: ink.paper },
      ),
      texts(
        data.rows.map(({ label }, row) => ({
          text: shortenMiddle(displayText(label), left - 14, fontSize.label),
          x: -8,
          y: (row + 0.5) * rowHeight,
        })),
        { align: 'right' },
      ),
      texts(numbers, { align: 'center', soft: true }),
      texts([{ text: 'visit', x: -8, y: height + 10 }], { align: 'right', soft: true }),
    ],
  });
}

/**
 * The chart in words: what is full, and where something is lacking.
 *
 * @example describeCountsChart({ title: 'Readings', counted: 'places read', visits: 1, rows: [{ label: 'W01', most: 3, counts: [3] }] }) // 'Readings. 1 row, 1 visit. Nothing is lacking.'
 */
export function describeCountsChart({ title, counted, visits, rows }: CountsChartData): string {
  const lacking = rows.filter(({ most, counts }) => counts.some((count) => count < most) || most === 0);
  const most = 12;
  const said = lacking
    .slice(0, most)
    .map(
      (row) =>
        `${displayText(row.label)} ${row.counts.reduce((sum, count) => sum + count, 0)} of ${row.most * visits} ${displayText(counted)}`,
    );
  const more = lacking.length > most ? `; and ${countOf(lacking.length - most, 'row')} more` : '';
  const end = lacking.length === 0 ? 'Nothing is lacking.' : `Not full: ${said.join('; ')}${more}.`;
  return `${displayText(title)}. ${countOf(rows.length, 'row')}, ${countOf(visits, 'visit')}. ${end}`;
}
