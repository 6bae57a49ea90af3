import { displayText } from '../words/display-text.js';
import { formatNumber } from '../words/format-number.js';
import { type ChartOptions, type ChartSpecification, defaultChartWidth } from './chart-specification.js';
import { axesOnly, type Domain, frame, paddedDomain, placeIn, valueChannel } from './frame.js';
import { levels, type PlacedMarks, type PlacedText, symbols, texts } from './marks.js';
import { estimatedWidth, shortenMiddle, wrapText } from './text-layout.js';
import { fontSize, groupStyle, ink } from './theme.js';

export interface BeforeAfterWall {
  readonly wall: string;
  readonly before: number;
  readonly after: number;
}

export interface BeforeAfterGroup {
  /** Which of the theme's styles; defaults to the group's place. */
  readonly style?: number;
  /** For instance `treated (treated)`. */
  readonly label: string;
  readonly walls: readonly BeforeAfterWall[];
}

export interface BeforeAfterChartData {
  readonly title: string;
  readonly groups: readonly BeforeAfterGroup[];
  readonly quantity: string;
  readonly unit: string;
  readonly decimals: number;
  /** For several charts on one scale; defaults to the range of the values. */
  readonly domain?: Domain;
}

interface LaidGroup {
  readonly style: ReturnType<typeof groupStyle>;
  readonly heading: PlacedText;
  readonly walls: readonly (BeforeAfterWall & { readonly y: number })[];
}

const headingHeight = 24;
/** Room that a heading needs for its count and its signs, beside the arm's name. */
const headingSigns = 190;
const right = 16;

/**
 * Every wall as a pair of points on one line, its before hollow and its after filled, the walls grouped by arm.
 *
 * @example beforeAfterChart(beforeAndAfter).title.text // ['Before and after']
 */
export function beforeAfterChart(data: BeforeAfterChartData, options: ChartOptions = {}): ChartSpecification {
  const width = options.width ?? defaultChartWidth;
  const rowHeight = rowHeightFor(data.groups.reduce((count, group) => count + group.walls.length, 0));
  const left = gutter(data, width);
  const plotWidth = width - left - right;
  const groups = layGroups(data.groups, { left, rowHeight, width });
  const height = groups.reduce((sum, group) => sum + headingHeight + group.walls.length * rowHeight, 0) + 6;
  const values = data.groups.flatMap((group) => group.walls.flatMap((wall) => [wall.before, wall.after]));
  const domain = data.domain ?? paddedDomain(values);
  const unit = shortenMiddle(displayText(data.unit), 180, fontSize.label);
  const quantity = shortenMiddle(displayText(data.quantity), 260, fontSize.label);
  const axisTitle = wrapText(`${quantity} (${unit})`, plotWidth, fontSize.label);
  return frame({
    title: displayText(data.title),
    subtitle: `One line a wall, its stations' mean. Hollow: before. Filled: after.`,
    description: describeBeforeAfterChart(data),
    width,
    left,
    right,
    above: 4,
    below: 30 + axisTitle.length * 13,
    height,
    layers: [
      axesOnly({ x: valueChannel(axisTitle, plotWidth, domain) }),
      guides(groups, plotWidth),
      ...groups.flatMap((group) => pairs(group, placeIn(domain, plotWidth))),
      texts(
        groups.map((group) => group.heading),
        { bold: true },
      ),
      texts(wallNames(groups, left)),
    ],
  });
}

/**
 * The chart in words: how many walls of each arm went which way, and between which values.
 *
 * @example describeBeforeAfterChart(beforeAndAfter).slice(-38) // 'before 9.1, after 6.4; 1 fell, 0 rose.'
 */
export function describeBeforeAfterChart(data: BeforeAfterChartData): string {
  const groups = data.groups.map((group) => {
    const fell = group.walls.filter((wall) => wall.after < wall.before).length;
    const rose = group.walls.filter((wall) => wall.after > wall.before).length;
    const [before, after] = [
      range(
        group.walls.map((wall) => wall.before),
        data,
      ),
      range(
        group.walls.map((wall) => wall.after),
        data,
      ),
    ];
    return `${displayText(group.label)}, ${counted(group.walls.length)}: before ${before}, after ${after}; ${fell} fell, ${rose} rose`;
  });
  return `${displayText(data.title)}. Before and after values of ${displayText(data.quantity)} in ${displayText(data.unit)}, one pair of points a wall. ${groups.join('. ')}.`;
}

function counted(walls: number): string {
  return `${walls} ${walls === 1 ? 'wall' : 'walls'}`;
}

function range(values: readonly number[], data: BeforeAfterChartData): string {
  const [low, high] = [Math.min(...values), Math.max(...values)].map((value) => formatNumber(value, data.decimals));
  return low === high ? `${low}` : `${low} to ${high}`;
}

function rowHeightFor(walls: number): number {
  if (walls <= 30) return 17;
  return walls <= 45 ? 15 : 13;
}

function gutter(data: BeforeAfterChartData, width: number): number {
  const longest = Math.max(
    ...data.groups.flatMap((group) =>
      group.walls.map((wall) => estimatedWidth(displayText(wall.wall), fontSize.label)),
    ),
  );
  return Math.min(Math.max(60, longest + 14), width * 0.36);
}

interface Sizes {
  readonly left: number;
  readonly rowHeight: number;
  readonly width: number;
}

function layGroups(groups: readonly BeforeAfterGroup[], sizes: Sizes): LaidGroup[] {
  const { left, rowHeight, width } = sizes;
  const laid: LaidGroup[] = [];
  let top = 0;
  for (const [index, group] of groups.entries()) {
    const style = groupStyle(group.style ?? index);
    const name = shortenMiddle(displayText(group.label), width - headingSigns, fontSize.label);
    const first = top + headingHeight;
    laid.push({
      style,
      heading: {
        text: `${name}, ${counted(group.walls.length)}:  ${style.hollow} before  ${style.filled} after`,
        x: 2 - left,
        y: top + headingHeight / 2 + 3,
      },
      walls: group.walls.map((wall, row) => ({ ...wall, y: first + (row + 0.5) * rowHeight })),
    });
    top = first + group.walls.length * rowHeight;
  }
  return laid;
}

/** Two pixels in: the first letter of some fonts reaches out to the left. */
function wallNames(groups: readonly LaidGroup[], left: number): PlacedText[] {
  return groups.flatMap((group) =>
    group.walls.map((wall) => ({
      text: shortenMiddle(displayText(wall.wall), left - 14, fontSize.label),
      x: 2 - left,
      y: wall.y,
    })),
  );
}

function pairs({ style, walls }: LaidGroup, place: (value: number) => number): PlacedMarks[] {
  const { shape, colour, dash } = style;
  const bars = walls.map(({ before, after, y }) => ({ before, after, x: place(before), x2: place(after), y }));
  const point = { shape, stroke: colour, width: 1.5 };
  return [
    levels(bars, { stroke: colour, width: 1.5, dash }),
    symbols(
      walls.map(({ before, y }) => ({ before, x: place(before), y })),
      { ...point, fill: ink.paper, size: 60 },
    ),
    symbols(
      walls.map(({ after, y }) => ({ after, x: place(after), y })),
      { ...point, fill: colour, size: 38 },
    ),
  ];
}

/** A faint line under every wall leads the eye from its name to its points. */
function guides(groups: readonly LaidGroup[], plotWidth: number): PlacedMarks {
  return levels(
    groups.flatMap(({ walls }) => walls.map(({ y }) => ({ y, x: 0, x2: plotWidth }))),
    { stroke: ink.grid, width: 1 },
  );
}
