import { displayText } from '../words/display-text.js';
import { formatSigned } from '../words/format-number.js';
import { levelInWords } from '../words/movement.js';
import { type ChartOptions, type ChartSpecification, defaultChartWidth } from './chart-specification.js';
import { directions, onBetterSide, roomOfLines, signedMargin, zeroAndMargin } from './difference-lines.js';
import { axesOnly, type Domain, frame, paddedDomain, placeIn, valueAxis, valueChannel } from './frame.js';
import { type Box, boxes, levels, type PlacedMarks, type PlacedText, symbols, texts } from './marks.js';
import { estimatedWidth, shortenMiddle, wrapText } from './text-layout.js';
import { fontSize, groupStyle, ink } from './theme.js';

export interface IntervalRow {
  readonly label: string;
  readonly estimate: number;
  /** Both absent where the analysis gives no interval: the row then shows a point alone. */
  readonly lower?: number;
  readonly upper?: number;
}

export interface IntervalChartData {
  readonly title: string;
  readonly rows: readonly IntervalRow[];
  /** The difference's unit. */
  readonly unit: string;
  /** Which sign is good for the treated walls. */
  readonly better: 'lower' | 'higher';
  /** Positive; absent when none was stated. */
  readonly margin?: number;
  /** Level of the intervals, for instance 0.95. */
  readonly level: number;
  readonly walls: { readonly treated: number; readonly untreated: number };
  readonly decimals: number;
}

const side = 14;
const lineHeight = 14;
const axisTitleLine = 13;

/**
 * Differences as points with their intervals, against a line at zero and a line at the smallest worthwhile difference.
 *
 * @example intervalChart(differences).title.text // ['Difference of changes']
 */
export function intervalChart(data: IntervalChartData, options: ChartOptions = {}): ChartSpecification {
  const width = options.width ?? defaultChartWidth;
  const plotWidth = width - 2 * side;
  const rows = layRows(data, plotWidth);
  const height = (rows.at(-1)?.y ?? 0) + 16;
  const domain = differenceDomain(data);
  const unit = shortenMiddle(displayText(data.unit), 180, fontSize.label);
  const axisTitle = wrapText(`Difference, treated less untreated walls (${unit})`, plotWidth, fontSize.label);
  return frame({
    title: displayText(data.title),
    subtitle: `${howToRead(data)} ${wallCounts(data)}`,
    description: describeIntervalChart(data),
    width,
    left: side,
    right: side,
    above: 4,
    below: 48 + axisTitle.length * axisTitleLine,
    height,
    layers: [
      axis(domain, plotWidth, axisTitle),
      ...zeroAndMargin(data, domain, height, plotWidth),
      ...intervals(rows, domain, plotWidth),
      ...rowTexts(rows, plotWidth),
      ...directions(data, height + 32, plotWidth),
    ],
  });
}

/**
 * The chart in words, with its numbers.
 *
 * @example describeIntervalChart(differences).slice(-53) // '12 treated, 12 untreated. Pairs: −2.5 (−3.4 to −1.6).'
 */
export function describeIntervalChart(data: IntervalChartData): string {
  const margin = data.margin === undefined ? 'no margin was stated' : `the margin at ${signedMargin(data)}`;
  const rows = data.rows.map((row) => `${displayText(row.label)}: ${numbersOf(row, data)}`);
  return [
    `${displayText(data.title)}. Difference, treated less untreated walls, in ${displayText(data.unit)},`,
    `against zero and ${margin}; ${data.better} is better for the treated walls. ${wallCounts(data)} ${rows.join('; ')}.`,
  ].join(' ');
}

function howToRead(data: IntervalChartData): string {
  return `Point: estimate. Bar: ${levelInWords(data.level)} interval.`;
}

function wallCounts(data: IntervalChartData): string {
  return `Walls: ${data.walls.treated} treated, ${data.walls.untreated} untreated.`;
}

function numbersOf(row: IntervalRow, data: IntervalChartData): string {
  const estimate = formatSigned(row.estimate, data.decimals);
  if (row.lower === undefined || row.upper === undefined) return `${estimate} (no interval)`;
  return `${estimate} (${formatSigned(row.lower, data.decimals)} to ${formatSigned(row.upper, data.decimals)})`;
}

/** Both directions keep room for their words, however one-sided the answer is. */
function differenceDomain(data: IntervalChartData): Domain {
  const values = data.rows.flatMap((row) => [row.estimate, row.lower ?? row.estimate, row.upper ?? row.estimate]);
  const margin = data.margin === undefined ? [] : [onBetterSide(data, data.margin)];
  const all = paddedDomain([...values, 0, ...margin]);
  const room = 0.4 * Math.max(Math.abs(all.from), Math.abs(all.to));
  return { from: Math.min(all.from, -room), to: Math.max(all.to, room) };
}

interface LaidRow extends IntervalRow {
  readonly y: number;
  readonly names: readonly PlacedText[];
  readonly numbers: PlacedText;
}

/** Each row: its name and numbers above, the interval below; the numbers share the name's last line where both fit. */
function layRows(data: IntervalChartData, plotWidth: number): readonly LaidRow[] {
  const rows: LaidRow[] = [];
  let top = roomOfLines(data);
  for (const row of data.rows) {
    const numbers = numbersOf(row, data);
    const name = shortenMiddle(displayText(row.label), 3 * plotWidth, fontSize.label);
    const names = wrapText(name, plotWidth, fontSize.label);
    const shared = estimatedWidth(`${names.at(-1) ?? ''}   ${numbers}`, fontSize.label) <= plotWidth;
    const numbersY = top + 8 + (shared ? names.length - 1 : names.length) * lineHeight;
    rows.push({
      ...row,
      y: numbersY + 16,
      names: names.map((text, index) => ({ text, x: 0, y: top + 8 + index * lineHeight })),
      numbers: { text: numbers, x: plotWidth, y: numbersY },
    });
    top = numbersY + 28;
  }
  return rows;
}

function axis(domain: Domain, plotWidth: number, title: readonly string[]): ChartSpecification {
  const x = valueChannel(title, plotWidth, domain);
  return axesOnly({ x: { ...x, axis: { ...valueAxis(title, plotWidth, domain), titlePadding: 22 } } });
}

function intervals(rows: readonly LaidRow[], domain: Domain, plotWidth: number): PlacedMarks[] {
  const place = placeIn(domain, plotWidth);
  const { colour } = groupStyle(0);
  const bars = rows.flatMap(({ lower, upper, y }) =>
    lower === undefined || upper === undefined ? [] : [{ lower, upper, x: place(lower), x2: place(upper), y }],
  );
  const points = rows.map(({ estimate, y }) => ({ estimate, x: place(estimate), y }));
  return [
    levels(bars, { stroke: colour, width: 3 }),
    symbols(points, { shape: 'circle', fill: colour, stroke: ink.paper, width: 1.5, size: 110 }),
  ];
}

/** On paper of their own, so that the lines at zero and at the margin stop short of the words. */
function rowTexts(rows: readonly LaidRow[], plotWidth: number): PlacedMarks[] {
  const names = rows.flatMap((row) => row.names);
  const numbers = rows.map((row) => row.numbers);
  const width = ({ text }: PlacedText) => estimatedWidth(text, fontSize.label) + 4;
  const paper = (text: PlacedText, x: number): Box => ({ x, x2: x + width(text), y: text.y - 7, y2: text.y + 7 });
  return [
    boxes([...names.map((name) => paper(name, 0)), ...numbers.map((each) => paper(each, plotWidth - width(each)))], {
      fill: ink.paper,
    }),
    texts(names),
    texts(numbers, { align: 'right' }),
  ];
}
