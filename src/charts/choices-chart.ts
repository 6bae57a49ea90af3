import { displayText } from '../words/display-text.js';
import { formatSigned, formatStated } from '../words/format-number.js';
import { levelInWords } from '../words/movement.js';
import { type ChartOptions, type ChartSpecification, defaultChartWidth } from './chart-specification.js';
import { axesOnly, frame, paddedDomain, placeIn, valueChannel } from './frame.js';
import type { IntervalChartData, IntervalRow } from './interval-chart.js';
import { levels, type PlacedMarks, type PlacedText, symbols, texts, upright } from './marks.js';
import { estimatedWidth, shortenMiddle, wrapText } from './text-layout.js';
import { fontSize, groupStyle, ink } from './theme.js';

/** As for an interval chart; one row is the primary answer. */
export interface ChoicesChartData extends Omit<IntervalChartData, 'rows'> {
  readonly rows: readonly (IntervalRow & { readonly isPrimary: boolean })[];
}

const lineHeight = 13;
/** Above and below the lines of a row's name. */
const rowAir = 4;
const top = 24;

/**
 * Many answers to one question in one compact picture: a line each, in order of their estimates, the primary one marked.
 *
 * @example choicesChart(differences).title.text // ['Difference of changes']
 */
export function choicesChart(data: ChoicesChartData, options: ChartOptions = {}): ChartSpecification {
  const width = options.width ?? defaultChartWidth;
  const rows = data.rows.toSorted((one, other) => one.estimate - other.estimate);
  const left = Math.min(width * 0.55, Math.max(...rows.map(({ label }) => estimatedWidth(label, fontSize.label))) + 24);
  const right = 14;
  const plotWidth = width - left - right;
  const laid = layRows(rows, left - 12);
  const height = (laid.at(-1)?.bottom ?? top) + 6;
  const margin = data.margin === undefined ? [] : [data.better === 'lower' ? -data.margin : data.margin];
  const domain = paddedDomain(
    [...rows.flatMap(({ estimate, lower, upper }) => [estimate, lower ?? estimate, upper ?? estimate]), 0, ...margin],
    0.08,
  );
  const place = placeIn(domain, plotWidth);
  const unit = shortenMiddle(displayText(data.unit), 140, fontSize.label);
  const title = wrapText(`Difference, treated less untreated (${unit})`, plotWidth, fontSize.label);
  return frame({
    title: displayText(data.title),
    subtitle: `Point: estimate. Bar: ${levelInWords(data.level)} interval. Marked and heavier: the primary answer. Walls in it: ${data.walls.treated} treated, ${data.walls.untreated} untreated; ${data.better} is better.`,
    description: describeChoicesChart(data),
    ...{ width, left, right, height, above: 4, below: 30 + title.length * 13 },
    layers: [
      axesOnly({ x: valueChannel(title, plotWidth, domain) }),
      upright(place(0), top - 4, height),
      texts([{ text: '0', x: place(0), y: top - 12 }], { align: 'center' }),
      ...margin.flatMap((value) => [
        upright(place(value), top - 4, height, { dash: [5, 3] }),
        marginName(value, place),
      ]),
      ...bars(laid, place),
      ...[true, false].map((isPrimary) =>
        texts(
          laid.filter((row) => row.isPrimary === isPrimary).flatMap(({ names }) => names),
          { align: 'right', bold: isPrimary },
        ),
      ),
    ],
  });
}

/** Over its line, and beside it where it would run into the zero. */
function marginName(value: number, place: (value: number) => number): PlacedMarks {
  const text = `margin ${formatStated(value)}`;
  const [x, y] = [place(value), top - 12];
  const isClose = Math.abs(x - place(0)) < estimatedWidth(text, fontSize.label) / 2 + 8;
  if (!isClose) return texts([{ text, x, y }], { align: 'center' });
  return value < 0 ? texts([{ text, x: x + 4, y }], { align: 'right' }) : texts([{ text, x: x - 4, y }]);
}

interface LaidRow extends IntervalRow {
  readonly isPrimary: boolean;
  readonly y: number;
  readonly bottom: number;
  readonly names: readonly PlacedText[];
}

/** A name that is too long for its room takes more lines; a number stays with its unit. */
function layRows(rows: ChoicesChartData['rows'], room: number): readonly LaidRow[] {
  const laid: LaidRow[] = [];
  let bottom = top;
  for (const row of rows) {
    // Bold letters are wider.
    const own = row.isPrimary ? 0.85 * room : room;
    const name = displayText(row.isPrimary ? `► ${row.label}` : row.label).replace(/(\d) mm/g, '$1\u00a0mm');
    const lines = wrapText(shortenMiddle(name, 2.6 * own, fontSize.label), own, fontSize.label);
    const first = bottom + (lineHeight + rowAir) / 2;
    bottom += lines.length * lineHeight + rowAir;
    laid.push({
      ...row,
      ...{ bottom, y: first + ((lines.length - 1) * lineHeight) / 2 },
      names: lines.map((text, at) => ({ text, x: -8, y: first + at * lineHeight })),
    });
  }
  return laid;
}

function bars(rows: readonly LaidRow[], place: (value: number) => number): PlacedMarks[] {
  // Bars under points, so that the primary answer's heavy bar hides no point.
  return [barsOf, pointsOf].flatMap((draw) => [true, false].map((isPrimary) => draw(rows, isPrimary, place)));
}

function barsOf(rows: readonly LaidRow[], isPrimary: boolean, place: (value: number) => number): PlacedMarks {
  const values = rows.flatMap((row) =>
    row.isPrimary !== isPrimary || row.lower === undefined || row.upper === undefined
      ? []
      : [{ lower: row.lower, upper: row.upper, x: place(row.lower), x2: place(row.upper), y: row.y }],
  );
  return levels(values, { stroke: isPrimary ? ink.text : groupStyle(0).colour, width: isPrimary ? 4 : 2 });
}

function pointsOf(rows: readonly LaidRow[], isPrimary: boolean, place: (value: number) => number): PlacedMarks {
  const own = rows.filter((row) => row.isPrimary === isPrimary);
  return symbols(
    own.map(({ estimate, y }) => ({ estimate, x: place(estimate), y })),
    {
      shape: isPrimary ? 'diamond' : 'circle',
      fill: isPrimary ? ink.text : groupStyle(0).colour,
      stroke: ink.paper,
      width: 1,
      size: isPrimary ? 110 : 55,
    },
  );
}

/**
 * The chart in words, with its numbers.
 *
 * @example describeChoicesChart(differences).slice(-36) // 'primary, Pairs: −2.5 (−3.4 to −1.6).'
 */
export function describeChoicesChart(data: ChoicesChartData): string {
  const number = (value: number) => formatSigned(value, data.decimals);
  const rows = data.rows.map(({ label, estimate, lower, upper, isPrimary }) => {
    const limits = lower === undefined || upper === undefined ? 'no interval' : `${number(lower)} to ${number(upper)}`;
    return `${isPrimary ? 'primary, ' : ''}${displayText(label)}: ${number(estimate)} (${limits})`;
  });
  return `${displayText(data.title)}. Difference, treated less untreated walls, in ${displayText(data.unit)}. ${rows.join('; ')}.`;
}
