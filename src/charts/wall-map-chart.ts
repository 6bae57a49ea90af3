import { displayText } from '../words/display-text.js';
import { formatNumber, formatSigned, formatStated } from '../words/format-number.js';
import type { ChartOptions, ChartSpecification } from './chart-specification.js';
import { type Domain, frame } from './frame.js';
import { boxes, type PlacedMarks, texts } from './marks.js';
import { shortenMiddle } from './text-layout.js';
import { amountColour, changeColour, fontSize, ink, inkOn } from './theme.js';

export interface WallMapChartCell {
  readonly height_mm: number;
  /** Depth from the face or position along the wall; absent where the value stands for the whole of it. */
  readonly across_mm?: number;
  readonly value: number;
  /** How many values the mean is of. */
  readonly n: number;
}

export interface WallMapChartData {
  readonly title: string;
  /** In any order; one cell a place. */
  readonly cells: readonly WallMapChartCell[];
  /** What the columns are. */
  readonly across: 'depth' | 'position';
  /** `amount`: darker is more. `change`: blue above zero, orange below it, signs printed. */
  readonly shows: 'amount' | 'change';
  /** What each value is a mean over, such as `1 wall` or `12 walls`. */
  readonly meansOver: string;
  readonly quantity: string;
  readonly unit: string;
  readonly decimals: number;
  /** For several maps on one scale of colours; the range of the values unless given. */
  readonly valueDomain?: Domain;
}

const wallMapWidth = 312;
const left = 58;
const right = 14;
const rowHeight = 38;
const gap = 2;

/**
 * A wall, or the mean of several, as cells of height by depth or position, each with its value and its n.
 *
 * @example wallMapChart(map).title.text // ['Moisture by depth']
 */
export function wallMapChart(data: WallMapChartData, options: ChartOptions = {}): ChartSpecification {
  const width = options.width ?? wallMapWidth;
  const plotWidth = width - left - right;
  const heights = distinct(data.cells.map(({ height_mm }) => height_mm)).reverse();
  const places = distinct(data.cells.map(({ across_mm }) => across_mm ?? wholeWall));
  const columnWidth = plotWidth / places.length;
  const height = heights.length * rowHeight;
  const laid = laidCells(data, { heights, places, columnWidth });
  const counts = distinct(data.cells.map(({ n }) => n));
  const [only] = counts;
  const quantity = shortenMiddle(displayText(data.quantity), 200, fontSize.label);
  const unit = shortenMiddle(displayText(data.unit), 120, fontSize.label);
  const sizes = counts.length === 1 ? `n = ${only} each` : 'n in each cell';
  return frame({
    title: displayText(data.title),
    subtitle: `${capital(quantity)} (${unit}), means over ${displayText(data.meansOver)}, ${sizes}. ${keyOf(data)}`,
    description: describeWallMapChart(data),
    ...{ width, left, right, height, above: 12, below: 34 },
    layers: [
      ...laid.flatMap(({ x, y, fill, value, n, textInk }) =>
        cellMarks({ x, y, fill, value, textInk, ...(counts.length === 1 ? {} : { n }) }, columnWidth),
      ),
      texts(
        heights.map((each, row) => ({ text: formatStated(each), x: -6, y: (row + 0.5) * rowHeight })),
        { align: 'right' },
      ),
      texts([{ text: 'height (mm)', x: 6 - left, y: -1 }], { soft: true }),
      texts(
        places.map((each, column) => ({
          text: each === wholeWall ? 'whole thickness' : formatStated(each),
          x: (column + 0.5) * columnWidth,
          y: height + 10,
        })),
        { align: 'center' },
      ),
      ...(places.every((each) => each === wholeWall)
        ? []
        : [texts([{ text: acrossTitle[data.across], x: plotWidth / 2, y: height + 25 }], { align: 'center' })]),
    ],
  });
}

/**
 * The chart in words: every cell with its value.
 *
 * @example describeWallMapChart(map).slice(-40) // 'height 600 mm, depth 40 mm: 5.2 (n = 3).'
 */
export function describeWallMapChart(data: WallMapChartData): string {
  const cells = data.cells.map((cell) => {
    const place = cell.across_mm === undefined ? '' : `, ${data.across} ${formatStated(cell.across_mm)} mm`;
    return `height ${formatStated(cell.height_mm)} mm${place}: ${valueText(data, cell.value)} (n = ${cell.n})`;
  });
  return `${displayText(data.title)}. ${capital(displayText(data.quantity))} in ${displayText(data.unit)}, means over ${displayText(data.meansOver)}. ${cells.join('; ')}.`;
}

/** Sorts before any depth or position. */
const wholeWall = -1;

const acrossTitle = { depth: 'depth from the face (mm)', position: 'position along the wall (mm)' } as const;

function keyOf({ shows }: WallMapChartData): string {
  return shows === 'amount' ? 'Darker: more.' : 'Blue, +: more. Orange, −: less.';
}

function valueText({ shows, decimals }: WallMapChartData, value: number): string {
  return shows === 'amount' ? formatNumber(value, decimals) : formatSigned(value, decimals);
}

interface Grid {
  readonly heights: readonly number[];
  readonly places: readonly number[];
  readonly columnWidth: number;
}

interface LaidCell {
  readonly x: number;
  readonly y: number;
  readonly fill: string;
  readonly textInk: string;
  readonly value: string;
  readonly n?: number;
}

function laidCells(data: WallMapChartData, { heights, places, columnWidth }: Grid): readonly LaidCell[] {
  const values = data.cells.map(({ value }) => value);
  const { from, to } = data.valueDomain ?? { from: Math.min(...values), to: Math.max(...values) };
  const furthest = Math.max(Math.abs(from), Math.abs(to)) || 1;
  return data.cells.map(({ height_mm, across_mm, value, n }) => {
    const fill =
      data.shows === 'amount' ? amountColour((value - from) / (to - from || 1)) : changeColour(value / furthest);
    return {
      x: places.indexOf(across_mm ?? wholeWall) * columnWidth,
      y: heights.indexOf(height_mm) * rowHeight,
      fill,
      textInk: inkOn(fill),
      value: valueText(data, value),
      n,
    };
  });
}

function cellMarks({ x, y, fill, textInk, value, n }: LaidCell, columnWidth: number): readonly PlacedMarks[] {
  const [middle, centre] = [x + columnWidth / 2, y + rowHeight / 2];
  const box = { x: x + gap / 2, x2: x + columnWidth - gap / 2, y: y + gap / 2, y2: y + rowHeight - gap / 2 };
  const lines = n === undefined ? [value] : [value, `n = ${n}`];
  return [
    boxes([box], { fill, stroke: ink.soft, width: 0.5 }),
    texts(
      lines.map((text, at) => ({ text, x: middle, y: centre + (at - (lines.length - 1) / 2) * 14 })),
      { align: 'center', fill: textInk },
    ),
  ];
}

function distinct(values: readonly number[]): number[] {
  return [...new Set(values)].sort((one, other) => one - other);
}

function capital(text: string): string {
  return text.slice(0, 1).toUpperCase() + text.slice(1);
}
