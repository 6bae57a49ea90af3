import { displayText } from '../words/display-text.js';
import { formatNumber, formatSigned, formatStated } from '../words/format-number.js';
import { type ChartOptions, type ChartSpecification, defaultChartWidth } from './chart-specification.js';
import { frame } from './frame.js';
import { levels, type PlacedMarks, type PlacedText, type SymbolLook, symbols, texts } from './marks.js';
import { shortenMiddle } from './text-layout.js';
import { fontSize, groupStyle, ink } from './theme.js';

export interface ElevationPlace {
  /** Along the wall, from the origin that the survey chose. */
  readonly position_mm: number;
  readonly height_mm: number;
  readonly before: number;
  readonly after: number;
}

export interface ElevationWall {
  readonly wall: string;
  readonly arm: string;
  /** Which of the theme's styles; so that an arm looks the same in every chart. */
  readonly style: number;
  readonly change: number;
  /** One a place; at least one. */
  readonly places: readonly ElevationPlace[];
}

export interface ElevationChartData {
  readonly title: string;
  readonly walls: readonly ElevationWall[];
  readonly quantity: string;
  readonly unit: string;
  readonly decimals: number;
}

const gap = 14;
/** Inside each panel: heights at the left, the wall's name above, positions below. */
const panel = { narrowest: 160, widest: 310, most: 3, left: 42, right: 16, top: 42, bottom: 22 } as const;
const drawnHeight = { least: 70, most: 240 } as const;
const radius = { least: 3, most: 13 } as const;

/**
 * Walls seen from the front, each place where it is: a ring for the value before and a filled shape for the value after, by area.
 *
 * @example elevationChart(elevations).title.text // ['The walls as they stand']
 */
export function elevationChart(data: ElevationChartData, options: ChartOptions = {}): ChartSpecification {
  const width = options.width ?? defaultChartWidth;
  const scale = scaleOf(data, width);
  const laid = data.walls.map((wall, index) => ({ ...wall, ...scale.cornerOf(index) }));
  const rows = Math.ceil(data.walls.length / scale.columns);
  const marks = laid.flatMap((wall) =>
    wall.places.map((place) => ({
      ...place,
      wall: wall.wall,
      style: wall.style,
      x: wall.x + scale.across(wall, place.position_mm),
      y: wall.y + scale.up(place.height_mm),
    })),
  );
  const styles = [...new Set(data.walls.map(({ style }) => style))];
  return frame({
    title: displayText(data.title),
    subtitle: subtitleOf(data, scale),
    description: describeElevationChart(data),
    ...{ width, left: 0, right: 0, above: 4, below: 6 },
    height: rows * scale.panelHeight,
    layers: [
      floors(laid, scale),
      ...styles.map((style) => {
        const { shape, colour } = groupStyle(style);
        const own = marks.filter((mark) => mark.style === style);
        return amounts(own, scale, 'after', { shape, fill: colour });
      }),
      // Pale under dark, so that a ring shows inside a dark shape as well.
      ...styles.flatMap((style) => {
        const { shape } = groupStyle(style);
        const own = marks.filter((mark) => mark.style === style);
        return [
          amounts(own, scale, 'before', { shape, fill: null, stroke: ink.paper, width: 3.5 }),
          amounts(own, scale, 'before', { shape, fill: null, stroke: ink.text, width: 1.25 }),
        ];
      }),
      ...names(laid, data, scale),
      ...ticks(laid, scale),
    ],
  });
}

/**
 * The chart in words: every place of every wall, before and after.
 *
 * @example describeElevationChart(elevations).slice(-46) // 'position 500 mm, height 600 mm: 9.0, then 6.0.'
 */
export function describeElevationChart(data: ElevationChartData): string {
  const number = (value: number) => formatNumber(value, data.decimals);
  const walls = data.walls.map(({ wall, arm, change, places }) => {
    const each = places.map(
      ({ position_mm, height_mm, before, after }) =>
        `position ${formatStated(position_mm)} mm, height ${formatStated(height_mm)} mm: ${number(before)}, then ${number(after)}`,
    );
    return `${displayText(wall)} (${displayText(arm)}, change ${formatSigned(change, data.decimals)}): ${each.join('; ')}`;
  });
  return `${displayText(data.title)}. ${displayText(data.quantity)} in ${displayText(data.unit)}, before and after, place by place. ${walls.join('. ')}.`;
}

function subtitleOf(data: ElevationChartData, { most, stretch }: Scale): string {
  const unit = shortenMiddle(displayText(data.unit), 120, fontSize.label);
  const heights =
    Math.abs(stretch - 1) < 0.05
      ? 'drawn to scale'
      : `heights drawn at ${formatStated(Number(stretch.toPrecision(2)))} times the scale of lengths`;
  return `Ring: before. Filled: after. Areas are amounts; the largest stands for ${formatNumber(most, data.decimals)} ${unit}. Heights and positions in mm, ${heights}.`;
}

type Laid = ElevationWall & { readonly x: number; readonly y: number };

interface Scale {
  readonly columns: number;
  readonly panelWidth: number;
  readonly panelHeight: number;
  /** Of the part in which places are drawn. */
  readonly drawn: { readonly width: number; readonly height: number };
  readonly lowest: number;
  readonly most: number;
  /** How much more a millimetre up is than one along. */
  readonly stretch: number;
  readonly cornerOf: (index: number) => { readonly x: number; readonly y: number };
  readonly across: (wall: ElevationWall, position_mm: number) => number;
  readonly up: (height_mm: number) => number;
  /** Vega's size of a symbol for a value. */
  readonly sizeOf: (value: number) => number;
}

/** All walls at one scale of millimetres and one of amounts. */
function scaleOf({ walls }: ElevationChartData, width: number): Scale {
  const columns = Math.max(1, Math.min(panel.most, walls.length, Math.floor((width + gap) / (panel.narrowest + gap))));
  const panelWidth = Math.min(panel.widest, (width - gap * (columns - 1)) / columns);
  const places = walls.flatMap((wall) => wall.places);
  const heights = places.map(({ height_mm }) => height_mm);
  const [lowest, highest] = [Math.min(0, ...heights), Math.max(...heights)];
  const longest = Math.max(1, ...walls.map((wall) => firstAndLast(wall)).map(([from, to]) => to - from));
  // Half a symbol on either side of the outermost places.
  const drawnWidth = panelWidth - panel.left - panel.right - radius.most;
  const across = drawnWidth / longest;
  const natural = (highest - lowest) * across;
  const height = Math.min(drawnHeight.most, Math.max(drawnHeight.least, natural));
  const up = height / (highest - lowest || 1);
  const panelHeight = panel.top + height + panel.bottom + gap;
  const values = places.flatMap(({ before, after }) => [before, after]);
  const [base, most] = [Math.min(0, ...values), Math.max(...values)];
  const largest = Math.min(radius.most, Math.max(radius.least, 0.48 * closest(walls, across, up)));
  return {
    ...{ columns, panelWidth, panelHeight, lowest, most, stretch: up / across },
    drawn: { width: drawnWidth, height },
    cornerOf: (index) => ({
      x: (index % columns) * (panelWidth + gap),
      y: Math.floor(index / columns) * panelHeight,
    }),
    across: (wall, position_mm) => panel.left + radius.most + (position_mm - firstAndLast(wall)[0]) * across,
    up: (height_mm) => panel.top + height - (height_mm - lowest) * up,
    sizeOf: (value) => (4 * largest ** 2 * (value - base)) / (most - base || 1),
  };
}

/** Pixels between the two places that are nearest to each other. */
function closest(walls: readonly ElevationWall[], across: number, up: number): number {
  const distances = walls.flatMap(({ places }) =>
    places.flatMap((one, at) =>
      places
        .slice(at + 1)
        .map((other) =>
          Math.hypot((one.position_mm - other.position_mm) * across, (one.height_mm - other.height_mm) * up),
        ),
    ),
  );
  return Math.min(2 * radius.most, ...distances);
}

function firstAndLast({ places }: ElevationWall): readonly [number, number] {
  const positions = places.map(({ position_mm }) => position_mm);
  return [Math.min(...positions), Math.max(...positions)];
}

type Mark = ElevationPlace & { readonly wall: string; readonly x: number; readonly y: number };

function amounts(marks: readonly Mark[], { sizeOf }: Scale, when: 'before' | 'after', look: SymbolLook): PlacedMarks {
  return symbols(
    marks.map(({ wall, position_mm, height_mm, x, y, ...values }) => {
      return { wall, position_mm, height_mm, [when]: values[when], x, y, size: sizeOf(values[when]) };
    }),
    look,
  );
}

function names(laid: readonly Laid[], { decimals }: ElevationChartData, { panelWidth }: Scale): PlacedMarks[] {
  const room = panelWidth - 4;
  // Bold letters are wider.
  const short = (text: string) => shortenMiddle(text, 0.85 * room, fontSize.label);
  return [
    texts(
      laid.map(({ wall, x, y }) => ({ text: short(displayText(wall)), x: x + 2, y: y + 8 })),
      { bold: true },
    ),
    texts(
      laid.map(({ arm, style, change, x, y }) => {
        const end = `: ${formatSigned(change, decimals)}`;
        const name = shortenMiddle(displayText(arm), room - (end.length + 3) * 7, fontSize.label);
        return { text: `${groupStyle(style).filled} ${name}${end}`, x: x + 2, y: y + 22 };
      }),
      { soft: true },
    ),
  ];
}

/** The floor where heights begin, under every wall. */
function floors(laid: readonly Laid[], { up, drawn }: Scale): PlacedMarks {
  const values = laid.map(({ x, y }) => ({
    x: x + panel.left - 4,
    x2: x + panel.left + 2 * radius.most + drawn.width,
    y: y + up(0),
  }));
  return levels(values, { stroke: ink.text, width: 1.5 });
}

/** The floor and the highest and lowest height at the left, the first and the last position below. */
function ticks(laid: readonly Laid[], scale: Scale): PlacedMarks[] {
  const heights = laid.flatMap((wall): PlacedText[] => {
    const own = wall.places.map(({ height_mm }) => height_mm);
    return apart(
      [0, Math.max(...own), Math.min(...own)].map((height) => ({ height, y: wall.y + scale.up(height) })),
    ).map(({ height, y }) => ({ text: formatStated(height), x: wall.x + panel.left - 8, y }));
  });
  const positions = laid.flatMap((wall): PlacedText[] => {
    const [first, last] = firstAndLast(wall);
    return [...new Set([first, last])].map((position) => ({
      text: formatStated(position),
      x: wall.x + scale.across(wall, position),
      y: wall.y + panel.top + scale.drawn.height + panel.bottom - 6,
    }));
  });
  return [texts(heights, { align: 'right', soft: true }), texts(positions, { align: 'center', soft: true })];
}

/** Those that stand a line apart from the ones before them. */
function apart(labels: readonly { readonly height: number; readonly y: number }[]) {
  return labels.filter(({ y }, at) => labels.slice(0, at).every((other) => Math.abs(other.y - y) >= 13));
}
