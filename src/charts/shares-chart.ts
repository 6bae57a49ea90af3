import { displayText } from '../words/display-text.js';
import { formatNumber } from '../words/format-number.js';
import { type ChartOptions, type ChartSpecification, defaultChartWidth } from './chart-specification.js';
import { frame } from './frame.js';
import { type Box, boxes, type PlacedMarks, texts } from './marks.js';
import { estimatedWidth, shortenMiddle } from './text-layout.js';
import { changeColour, fontSize, ink } from './theme.js';

export interface SharesChartData {
  readonly title: string;
  /** What a whole bar is, such as `4,000 simulated trials`. */
  readonly whole: string;
  /** In the order in which they fill a bar, from left to right; `strength` from −1 to 1 is the colour, 0 is paper. */
  readonly parts: readonly { readonly label: string; readonly strength: number }[];
  readonly columns: readonly string[];
  /** Of each column the share of each part. */
  readonly rows: readonly { readonly label: string; readonly shares: readonly (readonly number[])[] }[];
}

const rowHeight = 16;
const barHeight = 11;
const gap = 10;
const right = 8;

/**
 * Bars that are filled by shares, a row for each thing and a column for each condition.
 *
 * @example sharesChart({ title: 'Verdicts', whole: '10 trials', parts: [{ label: 'yes', strength: 1 }], columns: ['now'], rows: [{ label: 'one', shares: [[1]] }] }).title.text // ['Verdicts']
 */
export function sharesChart(data: SharesChartData, options: ChartOptions = {}): ChartSpecification {
  const width = options.width ?? defaultChartWidth;
  const widest = Math.max(...data.rows.map(({ label }) => estimatedWidth(displayText(label), fontSize.label)));
  const left = Math.min(width * 0.45, widest + 16);
  const column = (width - left - right) / data.columns.length;
  const height = data.rows.length * rowHeight;
  const barWidth = column - gap;
  const legend = legendOf(data, width - left - right);
  return frame({
    title: displayText(data.title),
    subtitle: `Each bar: ${displayText(data.whole)}, in the order of the key below, from left to right.`,
    description: describeSharesChart(data),
    ...{ width, left, right, height, above: 22, below: 14 + legend.lines * rowHeight },
    layers: [
      ...data.parts.map((part, which) =>
        boxes(barsOf(data, which, column, barWidth), { fill: changeColour(part.strength) }),
      ),
      outlines(data, column, barWidth),
      texts(
        data.columns.map((text, at) => ({
          text: shortenMiddle(displayText(text), barWidth, fontSize.label),
          x: at * column,
          y: -9,
        })),
        { soft: true },
      ),
      texts(
        data.rows.map(({ label }, row) => ({
          text: shortenMiddle(displayText(label), left - 12, fontSize.label),
          x: -8,
          y: (row + 0.5) * rowHeight,
        })),
        { align: 'right' },
      ),
      ...legend.items.flatMap(({ text, x, line, strength }) => {
        const y = height + 14 + line * rowHeight;
        return [
          boxes([{ x, x2: x + 10, y: y - 5, y2: y + 5 }], { fill: changeColour(strength) }),
          texts([{ text, x: x + 15, y }]),
        ];
      }),
    ],
  });
}

function topOf(row: number): number {
  return row * rowHeight + (rowHeight - barHeight) / 2;
}

function barsOf({ rows }: SharesChartData, which: number, column: number, barWidth: number): readonly Box[] {
  return rows.flatMap(({ shares }, row) =>
    shares.flatMap((own, at): readonly Box[] => {
      const before = own.slice(0, which).reduce((sum, share) => sum + share, 0);
      const share = own[which] ?? 0;
      const x = at * column + before * barWidth;
      return share === 0 ? [] : [{ x, x2: x + share * barWidth, y: topOf(row), y2: topOf(row) + barHeight }];
    }),
  );
}

/** Around each bar, so that paper inside it can be seen. */
function outlines({ rows }: SharesChartData, column: number, barWidth: number): PlacedMarks {
  const values = rows.flatMap(({ shares }, row) =>
    shares.map((_, at) => ({ x: at * column, x2: at * column + barWidth, y: topOf(row), y2: topOf(row) + barHeight })),
  );
  return boxes(values, { fill: null, stroke: ink.soft, width: 0.6 });
}

/** The parts in lines as wide as the plot. */
function legendOf({ parts }: SharesChartData, width: number) {
  let [x, line] = [0, 0];
  const items = parts.map(({ label, strength }) => {
    const text = displayText(label);
    const space = 15 + estimatedWidth(text, fontSize.label) + 16;
    if (x > 0 && x + space > width) [x, line] = [0, line + 1];
    const item = { text, strength, x, line };
    x += space;
    return item;
  });
  return { items, lines: line + 1 };
}

/**
 * The chart in words, with its numbers.
 *
 * @example describeSharesChart({ title: 'Verdicts', whole: '10 trials', parts: [{ label: 'yes', strength: 1 }], columns: ['now'], rows: [{ label: 'one', shares: [[1]] }] }) // 'Verdicts. Shares of 10 trials. one, now: yes 100 %.'
 */
export function describeSharesChart({ title, whole, parts, columns, rows }: SharesChartData): string {
  const bars = rows.flatMap(({ label, shares }) =>
    shares.map((own, at) => {
      const filled = own.flatMap((share, part) =>
        share === 0 ? [] : [`${displayText(parts[part]?.label ?? '')} ${formatNumber(100 * share, 0)} %`],
      );
      return `${displayText(label)}, ${displayText(columns[at] ?? '')}: ${filled.join(', ')}`;
    }),
  );
  return `${displayText(title)}. Shares of ${displayText(whole)}. ${bars.join('; ')}.`;
}
