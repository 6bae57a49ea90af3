import { displayText } from '../words/display-text.js';
import { type ChartOptions, type ChartSpecification, defaultChartWidth } from './chart-specification.js';
import { type ChartPart, frame } from './frame.js';
import { levels, type PlacedMarks, pixels, symbols, texts } from './marks.js';
import { wrapText } from './text-layout.js';
import { fontSize, groupStyle, ink } from './theme.js';

/** How a chance grows with the number of walls, a line for each way of reading them. */
export interface ChancesChartData {
  readonly title: string;
  /** What the chance is of, such as `of finding an effect of 4 % by mass worthwhile`. */
  readonly of: string;
  readonly lines: readonly ChancesLine[];
  /** The chance that the plan asks for, from 0 to 1. */
  readonly wanted: number;
}

export interface ChancesLine {
  readonly label: string;
  /** In the order of walls. */
  readonly points: readonly { readonly walls: number; readonly chance: number }[];
}

const left = 56;
const right = 150;
const height = 240;

/**
 * The chance by the number of walls, a line each for one, several and many stations a wall: lines that lie on each other say that more
 * stations no longer help.
 *
 * @example chancesChart(chances).title.text // ['Chance by walls and stations']
 */
export function chancesChart(data: ChancesChartData, options: ChartOptions = {}): ChartSpecification {
  const width = options.width ?? defaultChartWidth;
  const plotWidth = width - left - right;
  const walls = [...new Set(data.lines.flatMap(({ points }) => points.map((point) => point.walls)))];
  const [from, to] = [Math.min(...walls), Math.max(...walls)];
  // By its logarithm: to double the walls is one step anywhere.
  const x = (count: number) => (to > from ? (Math.log(count / from) / Math.log(to / from)) * plotWidth : plotWidth / 2);
  const y = (chance: number) => (1 - chance) * height;
  const marks = [0, 0.2, 0.4, 0.6, 0.8, 1];
  return frame({
    title: displayText(data.title),
    subtitle: `Chance ${displayText(data.of)}, in %. Points: designs that were computed. Dashed: the ${percent(data.wanted)} % that the plan asks for.`,
    description: describeChancesChart(data),
    ...{ width, left, right, height, above: 6, below: 44 },
    layers: [
      levels(
        marks.map((mark) => ({ x: 0, x2: plotWidth, y: y(mark) })),
        { stroke: ink.grid, width: 1 },
      ),
      levels([{ x: 0, x2: plotWidth, y: y(data.wanted) }], { width: 1, dash: [5, 3] }),
      texts(
        marks.map((mark) => ({ text: percent(mark), x: -8, y: y(mark) })),
        { align: 'right' },
      ),
      texts(
        walls.map((count) => ({ text: `${count}`, x: x(count), y: height + 12 })),
        { align: 'center' },
      ),
      texts([{ text: 'walls, treated and untreated together', x: plotWidth / 2, y: height + 32 }], {
        align: 'center',
        soft: true,
      }),
      ...data.lines.flatMap((line, index) => lineLayers(line, index, x, y)),
      ...names(data.lines, y, plotWidth),
    ],
  });
}

function percent(chance: number): string {
  return `${Math.round(100 * chance)}`;
}

function lineLayers(
  { points }: ChancesLine,
  index: number,
  x: (walls: number) => number,
  y: (chance: number) => number,
): readonly ChartPart[] {
  const { colour, dash, shape } = groupStyle(index);
  const values = points.map(({ walls, chance }) => ({ x: x(walls), y: y(chance) }));
  return [
    {
      data: { values },
      mark: { type: 'line', stroke: colour, strokeWidth: 2, strokeDash: dash },
      encoding: { x: pixels('x'), y: pixels('y'), order: { field: 'x' } },
    },
    symbols(values, { shape, fill: colour, stroke: ink.paper, width: 0.8, size: 50 }),
  ];
}

const nameHeight = 14;

/** Beside the ends of their lines, moved apart where they would lie on each other. */
function names(
  lines: readonly ChancesLine[],
  y: (chance: number) => number,
  plotWidth: number,
): readonly PlacedMarks[] {
  const ends = lines
    .map(({ label, points }, index) => ({ label, index, y: y(points.at(-1)?.chance ?? 0) }))
    .toSorted((one, other) => one.y - other.y);
  let free = Number.NEGATIVE_INFINITY;
  const placed = ends.map((end) => {
    const place = Math.max(end.y, free);
    free = place + nameHeight;
    return { text: `${groupStyle(end.index).filled} ${displayText(end.label)}`, x: plotWidth + 10, y: place };
  });
  return placed.flatMap((one) =>
    wrapText(one.text, right - 16, fontSize.label).map((text, at) => texts([{ ...one, text, y: one.y + at * 13 }])),
  );
}

/**
 * The chart in words.
 *
 * @example describeChancesChart(chances).slice(-41) // '3 stations: 12 walls 41 %, 24 walls 83 %.'
 */
export function describeChancesChart({ title, of, lines, wanted }: ChancesChartData): string {
  const said = lines.map(
    ({ label, points }) =>
      `${displayText(label)}: ${points.map(({ walls, chance }) => `${walls} walls ${percent(chance)} %`).join(', ')}`,
  );
  return `${displayText(title)}. Chance ${displayText(of)}; the plan asks for ${percent(wanted)} %. ${said.join('; ')}.`;
}
