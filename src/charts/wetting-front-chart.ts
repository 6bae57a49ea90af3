import { displayText } from '../words/display-text.js';
import { formatNumber } from '../words/format-number.js';
import { type ChartOptions, type ChartSpecification, defaultChartWidth } from './chart-specification.js';
import { axesOnly, frame, thousandsIn } from './frame.js';
import { levels, type PlacedMarks, pixels, symbols, texts, uprights } from './marks.js';
import { groupStyle, ink } from './theme.js';

/** Times in days since the first reading. */
export interface WettingFrontChartData {
  readonly title: string;
  readonly arrivals: readonly {
    readonly height_mm: number;
    readonly time_d: number;
    readonly lower_d: number;
    readonly upper_d: number;
  }[];
  /** When the water set out, and its height per root of the minutes since, mm/min^0.5. */
  readonly start_d: number;
  readonly speed: number;
  /** Level of the arrivals' intervals, such as 0.95. */
  readonly level: number;
}

const left = 62;
const right = 16;
const plotHeight = 230;
const minutesInDay = 1440;

/**
 * Heights against the root of the days since the water set out: a front that capillarity alone drives keeps to a straight line.
 *
 * @example wettingFrontChart(front).title.text // ['The front']
 */
export function wettingFrontChart(data: WettingFrontChartData, options: ChartOptions = {}): ChartSpecification {
  const width = options.width ?? defaultChartWidth;
  const plotWidth = width - left - right;
  const longest = 1.06 * Math.max(...data.arrivals.map(({ upper_d }) => rootOf(upper_d - data.start_d)));
  const highest = 1.08 * Math.max(...data.arrivals.map(({ height_mm }) => height_mm));
  const x = (time_d: number) => (rootOf(time_d - data.start_d) / longest) * plotWidth;
  const y = (height_mm: number) => plotHeight * (1 - height_mm / highest);
  const perRootOfDays = data.speed * Math.sqrt(minutesInDay);
  // The line ends with the plot, on whichever side it meets first.
  const lineEnd = Math.min(longest, highest / perRootOfDays);
  const style = groupStyle(0);
  const values = data.arrivals.map(({ height_mm, time_d, lower_d, upper_d }) => ({
    x: x(time_d),
    from: x(lower_d),
    to: x(upper_d),
    y: y(height_mm),
  }));
  return frame({
    title: displayText(data.title),
    subtitle: `${data.arrivals.length} sensors of one wall. Point: when the water came. Bar: its ${Math.round(100 * data.level)} % interval, never shorter than the time between two readings. Line: a height that grows with the root of time. Days stand closer the later they are, as their roots do.`,
    description: describeWettingFrontChart(data),
    width,
    left,
    right,
    above: 6,
    below: 46,
    height: plotHeight,
    layers: [
      axes(highest),
      ...dayTicks(longest, plotWidth),
      {
        data: {
          values: [
            { x: 0, y: plotHeight },
            { x: (lineEnd / longest) * plotWidth, y: y(lineEnd * perRootOfDays) },
          ],
        },
        mark: { type: 'line', stroke: ink.rule, strokeWidth: 1.6 },
        encoding: { x: pixels('x'), y: pixels('y') },
      },
      levels(
        values.map(({ from, to, y }) => ({ x: from, x2: to, y })),
        { stroke: style.colour, width: 1.8 },
      ),
      symbols(
        values.map(({ x, y }) => ({ x, y })),
        { shape: style.shape, fill: style.colour, size: 30 },
      ),
    ],
  });
}

/**
 * The chart in words.
 *
 * @example describeWettingFrontChart(front).slice(-62) // '200 mm after 2.0 days; a line of 3.10 mm per root of a minute.'
 */
export function describeWettingFrontChart({ title, arrivals, start_d, speed }: WettingFrontChartData): string {
  const [first, last] = [arrivals.at(0), arrivals.at(-1)];
  const at = (one: typeof first) =>
    one === undefined
      ? ''
      : `${formatNumber(one.height_mm, 0)} mm after ${formatNumber(Math.max(0, one.time_d - start_d), 1)} days`;
  return `${displayText(title)}. The height that the water had reached against the root of the days since it set out: ${arrivals.length} sensors, ${at(first)}, ${at(last)}; a line of ${formatNumber(speed, 2)} mm per root of a minute.`;
}

function rootOf(days: number): number {
  return Math.sqrt(Math.max(0, days));
}

const dayCandidates = [0, 1, 2, 4, 7, 14, 21, 30, 45, 60, 90, 120, 180, 270, 365, 545, 730, 1095, 1460];
const dayRoom = 26;

/** Days at their roots, as many as have room, and what they are. */
function dayTicks(longest: number, plotWidth: number): readonly PlacedMarks[] {
  const place = (day: number) => (Math.sqrt(day) / longest) * plotWidth;
  const placed: number[] = [];
  for (const day of dayCandidates) {
    const last = placed.at(-1);
    const hasRoom = last === undefined || place(day) - place(last) >= dayRoom;
    if (hasRoom && place(day) <= plotWidth) placed.push(day);
  }
  return [
    uprights(
      placed.map((day) => ({ x: place(day), y: 0, y2: plotHeight + 4 })),
      { stroke: ink.grid, width: 1 },
    ),
    texts(
      placed.map((day) => ({ text: formatNumber(day, 0), x: place(day), y: plotHeight + 13 })),
      { align: 'center' },
    ),
    texts([{ text: 'days since the water set out', x: plotWidth / 2, y: plotHeight + 31 }], { align: 'center' }),
  ];
}

function axes(highest: number): ChartSpecification {
  return axesOnly({
    y: {
      type: 'quantitative',
      scale: { domain: [0, highest], nice: false, range: [plotHeight, 0] },
      axis: {
        title: 'height (mm)',
        grid: true,
        tickCount: 5,
        titlePadding: 8,
        ...thousandsIn({ from: 0, to: highest }),
      },
    },
  });
}
