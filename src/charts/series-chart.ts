import { msInDay } from '../plain/days.js';
import { displayText } from '../words/display-text.js';
import { formatNumber, formatSigned } from '../words/format-number.js';
import { levelInWords } from '../words/movement.js';
import { calendarAxes, startOfDay } from './calendar-axes.js';
import { type ChartOptions, type ChartSpecification, defaultChartWidth } from './chart-specification.js';
import { countOf } from './count-of.js';
import { type ChartPart, type Domain, frame, paddedDomain, placeIn } from './frame.js';
import { boxes, levels, type PlacedMarks, pixels, symbols, texts, upright } from './marks.js';
import { wrapText } from './text-layout.js';
import { fontSize, groupStyle, ink } from './theme.js';

/** All days are ISO days. */
export interface SeriesChartData {
  readonly title: string;
  readonly quantity: string;
  readonly unit: string;
  readonly treated: string;
  readonly untreated: string;
  readonly before: SeriesWindow;
  readonly after: SeriesWindow;
  /** Days on which something was done or happened. */
  readonly marks: readonly { readonly day: string; readonly label: string }[];
  /** Level of the bands, such as 0.95. */
  readonly level: number;
}

export interface SeriesWindow {
  readonly visits: readonly { readonly day: string; readonly difference: number }[];
  /** The window's level with its band. */
  readonly mean: number;
  readonly lower: number;
  readonly upper: number;
}

const left = 62;
const right = 16;
const height = 250;

/**
 * How a treated wall stood against an untreated one at each visit, and the level of either window with its band.
 *
 * @example seriesChart(twoWallsSeries).title.text // ['Two walls']
 */
export function seriesChart(data: SeriesChartData, options: ChartOptions = {}): ChartSpecification {
  const width = options.width ?? defaultChartWidth;
  const plotWidth = width - left - right;
  const span = spanOf(data);
  const domain = paddedDomain([0, ...[data.before, data.after].flatMap(valuesOf)], 0.08);
  const x = (day: string) => placeIn(span, plotWidth)(at(day));
  const y = (value: number) => height - ((value - domain.from) / (domain.to - domain.from)) * height;
  // Vega counts more width for a title than it draws. A title longer than the plot moves the heading out of the picture.
  const title = wrapText(`Difference (${displayText(data.unit)})`, 0.7 * height, fontSize.label);
  return frame({
    title: displayText(data.title),
    subtitle: subtitleOf(data),
    description: describeSeriesChart(data),
    ...{ width, left, right, above: 6, below: 30, height },
    layers: [
      calendarAxes({ span, domain, plotWidth, height, left, right, title }),
      levels([{ x: 0, x2: plotWidth, y: y(0) }], { stroke: ink.soft, width: 1 }),
      ...[data.before, data.after].flatMap((window, index) => windowLayers(window, index, x, y)),
      ...data.marks.flatMap(({ day, label }) => markLayers(x(day), displayText(label), plotWidth)),
    ],
  });
}

/**
 * The chart in words.
 *
 * @example describeSeriesChart(twoWallsSeries).slice(-79) // 'After: 1 visit, level −1.6 (95 % interval −2.2 to −1.0). treated on 2024-06-10.'
 */
export function describeSeriesChart(data: SeriesChartData): string {
  const { title, quantity, unit, treated, untreated, before, after, level, marks } = data;
  const windowText = (name: string, { visits, mean, lower, upper }: SeriesWindow) =>
    `${name}: ${countOf(visits.length, 'visit')}, level ${formatSigned(mean, 1)} (${levelInWords(level)} interval ${formatSigned(lower, 1)} to ${formatSigned(upper, 1)}).`;
  return [
    `${displayText(title)}.`,
    `${displayText(quantity)} of ${displayText(treated)} less that of ${displayText(untreated)} in ${displayText(unit)}, a point for each visit.`,
    windowText('Before', before),
    windowText('After', after),
    ...marks.map(({ day, label }) => `${displayText(label)} on ${day}.`),
  ].join(' ');
}

function subtitleOf({ unit, treated, untreated, before, after, level }: SeriesChartData): string {
  const [one, other] = [groupStyle(0), groupStyle(1)];
  return `In ${displayText(unit)}, ${displayText(treated)} less ${displayText(untreated)}. Points: visits, ${one.filled} before (${formatNumber(before.visits.length, 0)}) and ${other.filled} after (${formatNumber(after.visits.length, 0)}). Thick lines: the windows’ levels. Bands: their ${levelInWords(level)} intervals, likeness of neighbouring visits allowed for.`;
}

function valuesOf({ visits, mean, lower, upper }: SeriesWindow): readonly number[] {
  return [...visits.map(({ difference }) => difference), mean, lower, upper];
}

function windowLayers(
  { visits, mean, lower, upper }: SeriesWindow,
  index: number,
  x: (day: string) => number,
  y: (value: number) => number,
): readonly ChartPart[] {
  const { colour, dash, shape } = groupStyle(index);
  const points = visits.map(({ day, difference }) => ({ x: x(day), y: y(difference) }));
  const ends = {
    x: Math.min(...points.map((point) => point.x)) - 5,
    x2: Math.max(...points.map((point) => point.x)) + 5,
  };
  return [
    boxes([{ ...ends, y: y(upper), y2: y(lower) }], { fill: colour, opacity: 0.2 }),
    levels([{ ...ends, y: y(mean) }], { stroke: colour, width: 2.6, dash }),
    {
      data: { values: points },
      mark: { type: 'line', stroke: colour, strokeWidth: 0.8, opacity: 0.5 },
      encoding: { x: pixels('x'), y: pixels('y'), order: { field: 'x' } },
    },
    symbols(points, { shape, fill: colour, stroke: ink.paper, width: 0.8, size: 46 }),
  ];
}

function markLayers(x: number, label: string, plotWidth: number): readonly PlacedMarks[] {
  const isLate = x > plotWidth / 2;
  const text = { text: label, x: x + (isLate ? -5 : 5), y: 8 };
  return [upright(x, 0, height, { dash: [2, 3] }), texts([text], { align: isLate ? 'right' : 'left', soft: true })];
}

function at(day: string): number {
  return startOfDay(day, 'series');
}

function spanOf({ before, after, marks }: SeriesChartData): Domain {
  const days = [...before.visits, ...after.visits, ...marks].map(({ day }) => at(day));
  const [from, to] = [Math.min(...days), Math.max(...days)];
  const air = Math.max(4 * msInDay, 0.02 * (to - from));
  return { from: from - air, to: to + air };
}
