import { displayText } from '../words/display-text.js';
import { formatNumber, formatSigned, formatStated } from '../words/format-number.js';
import { levelInWords } from '../words/movement.js';
import { type ChartOptions, type ChartSpecification, defaultChartWidth } from './chart-specification.js';
import { countOf } from './count-of.js';
import { marginLine } from './difference-lines.js';
import { axesOnly, type Domain, frame, paddedDomain, placeIn, valueChannel } from './frame.js';
import { boxes, levels, type PlacedMarks, type PlacedText, symbols, texts, upright } from './marks.js';
import { estimatedWidth, shortenMiddle, wrapText } from './text-layout.js';
import { fontSize, groupStyle, ink } from './theme.js';

export interface ChangesChartWall {
  readonly wall: string;
  /** After less before; the after value itself where nothing was read before. */
  readonly change: number;
  readonly before?: number;
  readonly after: number;
}

export interface ChangesChartGroup {
  /** Which of the theme's styles; so that an arm looks the same in every chart. */
  readonly style: number;
  readonly label: string;
  /** In the order in which they are shown. */
  readonly walls: readonly ChangesChartWall[];
  readonly mean: number;
  /** Both absent where there is no interval. */
  readonly lower?: number;
  readonly upper?: number;
  /** Through whose rows the margin's line goes: the mean is to be held against it. */
  readonly isTreated: boolean;
}

export interface ChangesChartData {
  readonly title: string;
  readonly groups: readonly ChangesChartGroup[];
  /** Where the treated mean lies when the difference is the margin, and the margin itself. */
  readonly margin?: { readonly at: number; readonly margin: number };
  readonly quantity: string;
  readonly unit: string;
  readonly decimals: number;
  /** Level of the intervals, for instance 0.95. */
  readonly level: number;
  /** For several charts on one scale; the range of the values unless given. */
  readonly domain?: Domain;
}

const right = 16;
const headingLine = 14;
/** Where the picture is narrower, the table has the before and after values alone. */
const widthForValues = 500;

/**
 * Every wall's change on one scale, arm by arm, over each arm's mean and its interval; with lines at zero and at the margin.
 *
 * @example changesChart(everyChange).title.text // ['The change of every wall']
 */
export function changesChart(data: ChangesChartData, options: ChartOptions = {}): ChartSpecification {
  const width = options.width ?? defaultChartWidth;
  const isRead = readBefore(data);
  const values = width < widthForValues || !isRead ? 0 : valuesWidth(data);
  const left = gutter(data, width);
  const plotWidth = width - left - right - values;
  const domain = data.domain ?? changesDomain(data);
  const place = placeIn(domain, plotWidth);
  const groups = layGroups(data, width);
  const height = groups.at(-1)?.bottom ?? 0;
  const unit = shortenMiddle(displayText(data.unit), 180, fontSize.label);
  const quantity = shortenMiddle(displayText(data.quantity), 260, fontSize.label);
  const title = wrapText(`${isRead ? `Change of ${quantity}` : quantity} (${unit})`, plotWidth, fontSize.label);
  return frame({
    title: displayText(data.title),
    subtitle: subtitleOf(data),
    description: describeChangesChart(data),
    ...{ width, left, right: right + values, height, above: 4, below: 30 + title.length * 13 },
    layers: [
      axesOnly({ x: valueChannel(title, plotWidth, domain) }),
      ...groups.flatMap((group) => intervalBand(group, place)),
      guides(groups, plotWidth),
      ...(isRead ? zeroLine(place(0), groups, plotWidth) : []),
      ...(data.margin === undefined ? [] : marginThroughTreated(data.margin, groups, place, plotWidth)),
      ...groups.flatMap((group) => meanLine(group, place)),
      ...headings(groups, left),
      ...groups.map((group) => points(group, place)),
      texts(
        groups.flatMap(({ walls }) => walls.map(({ wall, y }) => ({ text: shortName(wall, left), x: 2 - left, y }))),
      ),
      ...(values === 0 ? [] : valueTexts(data, groups, plotWidth + values + 8)),
    ],
  });
}

/**
 * The chart in words: each arm's mean with its interval, and between which changes its walls lie.
 *
 * @example describeChangesChart(everyChange).slice(-58) // 'treated, 1 wall from −2.7 to −2.7; mean −2.7, no interval.'
 */
export function describeChangesChart(data: ChangesChartData): string {
  const number = (value: number) => numberOf(data, value);
  const what = readBefore(data) ? 'Change' : 'After value';
  const groups = data.groups.map(({ label, walls, mean, lower, upper }) => {
    const all = walls.map(({ change }) => change);
    const interval =
      lower === undefined || upper === undefined
        ? 'no interval'
        : `${levelInWords(data.level)} interval ${number(lower)} to ${number(upper)}`;
    return `${displayText(label)}, ${countOf(walls.length, 'wall')} from ${number(Math.min(...all))} to ${number(Math.max(...all))}; mean ${number(mean)}, ${interval}`;
  });
  const margin =
    data.margin === undefined
      ? ''
      : ` The margin of ${formatStated(data.margin.margin)} from the untreated mean is at ${number(data.margin.at)}.`;
  return `${displayText(data.title)}. ${what} of ${displayText(data.quantity)} in ${displayText(data.unit)}, one point a wall.${margin} ${groups.join('. ')}.`;
}

function readBefore({ groups }: ChangesChartData): boolean {
  return groups.every(({ walls }) => walls.every(({ before }) => before !== undefined));
}

function numberOf(data: ChangesChartData, value: number): string {
  return readBefore(data) ? formatSigned(value, data.decimals) : formatNumber(value, data.decimals);
}

function subtitleOf(data: ChangesChartData): string {
  const hasBand = data.groups.some(({ lower }) => lower !== undefined);
  const band = hasBand ? ` Band: its ${levelInWords(data.level)} interval.` : '';
  const margin = data.margin === undefined ? '' : ' Dashed: the margin, counted from the untreated mean.';
  return `Point: a wall, those that did best first. Upright bar: the arm’s mean.${band}${margin}`;
}

/**
 * The range of all walls, means and intervals with zero and the margin: for several charts on one scale.
 *
 * @example changesDomain(everyChange).to // 0.135
 */
export function changesDomain({ groups, margin }: Pick<ChangesChartData, 'groups' | 'margin'>): Domain {
  const walls = groups.flatMap((group) => group.walls);
  return paddedDomain([
    ...walls.map(({ change }) => change),
    ...groups.flatMap(({ lower, upper }) => (lower === undefined || upper === undefined ? [] : [lower, upper])),
    ...(margin === undefined ? [] : [margin.at]),
    ...(walls.every(({ before }) => before !== undefined) ? [0] : []),
  ]);
}

function gutter(data: ChangesChartData, width: number): number {
  const names = data.groups.flatMap(({ walls }) =>
    walls.map(({ wall }) => estimatedWidth(displayText(wall), fontSize.label)),
  );
  return Math.min(Math.max(40, Math.max(...names) + 14), width * 0.36);
}

function shortName(wall: string, left: number): string {
  return shortenMiddle(displayText(wall), left - 14, fontSize.label);
}

function valuesText(data: ChangesChartData, { before, after }: ChangesChartWall): string {
  return `${formatNumber(before ?? after, data.decimals)} → ${formatNumber(after, data.decimals)}`;
}

const valuesTitle = 'before → after';

function valuesWidth(data: ChangesChartData): number {
  const all = [valuesTitle, ...data.groups.flatMap(({ walls }) => walls.map((wall) => valuesText(data, wall)))];
  return Math.max(...all.map((text) => estimatedWidth(text, fontSize.label))) + 10;
}

interface LaidGroup extends Omit<ChangesChartGroup, 'walls'> {
  readonly look: ReturnType<typeof groupStyle>;
  readonly heading: readonly { readonly text: string; readonly y: number }[];
  readonly walls: readonly (ChangesChartWall & { readonly y: number })[];
  /** Where its walls begin, and where it ends. */
  readonly top: number;
  readonly bottom: number;
}

function rowHeightFor(walls: number): number {
  if (walls <= 30) return 16;
  return walls <= 45 ? 15 : 13;
}

function layGroups(data: ChangesChartData, width: number): LaidGroup[] {
  const rowHeight = rowHeightFor(data.groups.reduce((count, { walls }) => count + walls.length, 0));
  const laid: LaidGroup[] = [];
  // Two rows of words stand over the first arm: the margin's and the zero's.
  let above = 20 + (data.margin === undefined ? 0 : 16);
  for (const group of data.groups) {
    const look = groupStyle(group.style);
    const lines = wrapText(headingOf(data, group, look.filled, width), width - 6, fontSize.label);
    const top = above + lines.length * headingLine + 8;
    const walls = group.walls.map((wall, row) => ({ ...wall, y: top + (row + 0.5) * rowHeight }));
    const bottom = top + walls.length * rowHeight + 6;
    laid.push({
      ...group,
      ...{ look, top, bottom, walls },
      heading: lines.map((text, at) => ({ text, y: above + 8 + at * headingLine })),
    });
    above = bottom;
  }
  return laid;
}

function headingOf(data: ChangesChartData, group: ChangesChartGroup, sign: string, width: number): string {
  const name = shortenMiddle(displayText(group.label), width / 3, fontSize.label);
  const { lower, upper } = group;
  const interval =
    lower === undefined || upper === undefined ? '' : ` (${numberOf(data, lower)} to ${numberOf(data, upper)})`;
  return `${sign} ${name}, ${countOf(group.walls.length, 'wall')}: mean ${numberOf(data, group.mean)}${interval}`;
}

function headings(groups: readonly LaidGroup[], left: number): PlacedMarks[] {
  const lines = groups.flatMap(({ heading }) => heading.map(({ text, y }): PlacedText => ({ text, x: 2 - left, y })));
  // On paper of their own, so that the lines at zero and at the margin stop short of the words.
  const papers = lines.map(({ text, x, y }) => ({
    x,
    x2: x + estimatedWidth(text, fontSize.label) + 10,
    y: y - 8,
    y2: y + 8,
  }));
  return [boxes(papers, { fill: ink.paper }), texts(lines, { bold: true })];
}

const bandFill = '#e4e4de';

function intervalBand({ lower, upper, top, bottom }: LaidGroup, place: (value: number) => number): PlacedMarks[] {
  if (lower === undefined || upper === undefined) return [];
  return [boxes([{ x: place(lower), x2: place(upper), y: top, y2: bottom - 6 }], { fill: bandFill })];
}

function meanLine({ mean, top, bottom }: LaidGroup, place: (value: number) => number): PlacedMarks[] {
  return [upright(place(mean), top, bottom - 6, { width: 2.5 })];
}

function guides(groups: readonly LaidGroup[], plotWidth: number): PlacedMarks {
  return levels(
    groups.flatMap(({ walls }) => walls.map(({ y }) => ({ y, x: 0, x2: plotWidth }))),
    { stroke: '#cfcfc8', width: 0.5 },
  );
}

/** Its words in the last row above the first arm. */
function zeroLine(x: number, groups: readonly LaidGroup[], plotWidth: number): PlacedMarks[] {
  const text = '0: no change';
  const isRight = x + 4 + estimatedWidth(text, fontSize.label) <= plotWidth;
  const top = groups[0]?.heading[0]?.y ?? 0;
  return [
    upright(x, top - 22, groups.at(-1)?.bottom ?? 0),
    texts([{ text, x: isRight ? x + 4 : x - 4, y: top - 16 }], { align: isRight ? 'left' : 'right' }),
  ];
}

function marginThroughTreated(
  { at, margin }: NonNullable<ChangesChartData['margin']>,
  groups: readonly LaidGroup[],
  place: (value: number) => number,
  plotWidth: number,
): PlacedMarks[] {
  const treated = groups.filter(({ isTreated }) => isTreated);
  const y2 = treated.at(-1)?.bottom;
  if (y2 === undefined) return [];
  return marginLine({ x: place(at), y2, text: `margin ${formatStated(margin)}: worthwhile beyond`, plotWidth });
}

function points({ look, walls }: LaidGroup, place: (value: number) => number): PlacedMarks {
  return symbols(
    walls.map(({ wall, change, y }) => ({ wall, change, x: place(change), y })),
    { shape: look.shape, fill: look.colour, stroke: ink.paper, width: 1, size: 62 },
  );
}

function valueTexts(data: ChangesChartData, groups: readonly LaidGroup[], x: number): PlacedMarks[] {
  const [first] = groups;
  const all = groups.flatMap(({ walls }) => walls.map((wall) => ({ text: valuesText(data, wall), x, y: wall.y })));
  return [
    texts(all, { align: 'right', soft: true }),
    texts([{ text: valuesTitle, x, y: (first?.heading[0]?.y ?? 0) - 16 }], { align: 'right', soft: true }),
  ];
}
