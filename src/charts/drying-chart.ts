import { msInDay } from '../plain/days.js';
import { displayText } from '../words/display-text.js';
import { formatNumber } from '../words/format-number.js';
import { levelInWords } from '../words/movement.js';
import { calendarAxes, startOfDay } from './calendar-axes.js';
import { type ChartOptions, type ChartSpecification, defaultChartWidth } from './chart-specification.js';
import { countOf } from './count-of.js';
import { type ChartPart, frame, paddedDomain, placeIn } from './frame.js';
import { boxes, type PlacedMarks, type PlacedText, pixels, symbols, texts, upright } from './marks.js';
import { wrapText } from './text-layout.js';
import { fontSize, groupStyle, ink } from './theme.js';

/** All days are ISO days. */
export interface DryingChartData {
  readonly title: string;
  readonly quantity: string;
  readonly unit: string;
  /** The treatment, or whatever time is counted from; what it is called. */
  readonly start: { readonly day: string; readonly label: string };
  readonly arms: readonly DryingArm[];
  /** Level of the bands, such as 0.95. */
  readonly level: number;
  /** A strip below: how much more vapour pressure a wet wall has than the air, in pascal. */
  readonly weather?: readonly { readonly day: string; readonly pressure_pa: number }[];
}

export interface DryingArm {
  readonly arm: string;
  readonly walls: readonly (readonly { readonly day: string; readonly value: number }[])[];
  /** Mean over walls at each visit, with the band of the mean where at least two walls were read. */
  readonly means: readonly {
    readonly day: string;
    readonly mean: number;
    readonly lower?: number;
    readonly upper?: number;
  }[];
}

const left = 62;
const right = 16;
const mainHeight = 250;
const stripHeight = 56;
const stripGap = 34;

/**
 * Moisture of every wall over time, the arms' means with bands, the start, and the weather below.
 *
 * @example dryingChart(drying).title.text // ['Drying']
 */
export function dryingChart(data: DryingChartData, options: ChartOptions = {}): ChartSpecification {
  const width = options.width ?? defaultChartWidth;
  const plotWidth = width - left - right;
  const span = spanOf(data);
  const domain = domainOf(data);
  const x = (day: string) => placeIn(span, plotWidth)(at(day));
  const y = (value: number) => mainHeight - ((value - domain.from) / (domain.to - domain.from)) * mainHeight;
  const hasStrip = data.weather !== undefined && data.weather.length > 0;
  const height = mainHeight + (hasStrip ? stripGap + stripHeight : 0);
  const startX = x(data.start.day);
  const isLate = startX > plotWidth / 2;
  const title = wrapText(`${displayText(data.quantity)} (${displayText(data.unit)})`, mainHeight, fontSize.label);
  return frame({
    title: displayText(data.title),
    subtitle: subtitleOf(data),
    description: describeDryingChart(data),
    width,
    left,
    right,
    above: 6,
    below: 30,
    height,
    layers: [
      calendarAxes({ span, domain, plotWidth, height: mainHeight, left, right, title }),
      ...data.arms.flatMap((arm, index) => armLayers(arm, index, x, y)),
      upright(startX, 0, height, { dash: [2, 3] }),
      texts([{ text: displayText(data.start.label), x: startX + (isLate ? -5 : 5), y: 8 }], {
        align: isLate ? 'right' : 'left',
        soft: true,
      }),
      ...(hasStrip ? strip(data.weather ?? [], x) : []),
    ],
  });
}

/**
 * The chart in words.
 *
 * @example describeDryingChart(drying).slice(-42) // 'mean 9.1 on 2024-06-10, 6.4 on 2024-09-10.'
 */
export function describeDryingChart({ title, quantity, unit, start, arms, level, weather }: DryingChartData): string {
  const ends = arms.map(({ arm, walls, means }) => {
    const [first, last] = [means.at(0), means.at(-1)];
    const course =
      first === undefined || last === undefined
        ? 'no mean'
        : `mean ${formatNumber(first.mean, 1)} on ${first.day}, ${formatNumber(last.mean, 1)} on ${last.day}`;
    return `${displayText(arm)}: ${countOf(walls.length, 'wall')}, ${course}.`;
  });
  return [
    `${displayText(title)}.`,
    `${displayText(quantity)} in ${displayText(unit)} over time, a thin line for each wall, a thick one for each arm’s mean${hasBands(arms) ? ` with its ${levelInWords(level)} band` : ''}.`,
    `${displayText(start.label)} on ${start.day}.`,
    ...ends,
    ...(weather === undefined
      ? []
      : ['Below, the vapour pressure difference between a wet wall and the air, by week.']),
  ].join(' ');
}

function subtitleOf({ unit, arms, level, weather }: DryingChartData): string {
  const names = arms.map(
    ({ arm, walls }, k) => `${groupStyle(k).filled} ${displayText(arm)} (${countOf(walls.length, 'wall')})`,
  );
  const air = weather === undefined ? '' : ' Below: how strongly the air takes water up, weekly means.';
  const bands = hasBands(arms) ? ` Bands: ${levelInWords(level)} intervals of the means, walls as units.` : '';
  return `In ${displayText(unit)}. Thin: walls. Thick: means of ${names.join(' and ')}.${bands}${air}`;
}

/** One wall an arm has none. */
function hasBands(arms: readonly DryingArm[]): boolean {
  return arms.some(({ means }) => means.some(({ lower }) => lower !== undefined));
}

function armLayers(
  { walls, means }: DryingArm,
  index: number,
  x: (day: string) => number,
  y: (value: number) => number,
): readonly ChartPart[] {
  const { colour, dash, shape } = groupStyle(index);
  const lines = walls.flatMap((wall, key) => wall.map(({ day, value }) => ({ x: x(day), y: y(value), key, day })));
  const band = means.flatMap(({ day, lower, upper }) =>
    lower === undefined || upper === undefined ? [] : [{ x: x(day), y: y(upper), y2: y(lower) }],
  );
  const centres = means.map(({ day, mean }) => ({ x: x(day), y: y(mean) }));
  const line = (
    values: readonly object[],
    strokeWidth: number,
    opacity: number,
    detail: boolean,
  ): ChartSpecification => ({
    data: { values },
    mark: { type: 'line', stroke: colour, strokeWidth, opacity, strokeDash: dash },
    encoding: {
      x: pixels('x'),
      y: pixels('y'),
      order: { field: 'x' },
      ...(detail ? { detail: { field: 'key' } } : {}),
    },
  });
  return [
    {
      data: { values: band },
      mark: { type: 'area', fill: colour, opacity: 0.22 },
      encoding: { x: pixels('x'), y: pixels('y'), y2: { field: 'y2' } },
    },
    line(lines, 0.8, 0.38, true),
    line(centres, 2.6, 1, false),
    symbols(centres, { shape, fill: colour, stroke: ink.paper, width: 0.8, size: 42 }),
  ];
}

/** Bars from a baseline, with the largest and zero written beside them. */
function strip(
  weather: readonly { readonly day: string; readonly pressure_pa: number }[],
  x: (day: string) => number,
): readonly PlacedMarks[] {
  const top = mainHeight + stripGap;
  const most = Math.max(1, ...weather.map(({ pressure_pa }) => pressure_pa));
  const y = (value: number) => top + stripHeight - (Math.max(0, value) / most) * stripHeight;
  const values = weather.map(({ day, pressure_pa }) => ({ x: x(day), x2: x(day) + 4, y: y(pressure_pa), y2: y(0) }));
  const names: readonly PlacedText[] = [
    { text: `${formatNumber(most, 0)} Pa`, x: -8, y: top + 4 },
    { text: '0 Pa', x: -8, y: top + stripHeight - 2 },
  ];
  return [
    boxes(values, { fill: ink.window }),
    texts(names, { align: 'right', soft: true }),
    texts([{ text: 'Vapour pressure of a wet wall above the air’s', x: 0, y: top - 11 }], { soft: true }),
  ];
}

interface Span {
  readonly from: number;
  readonly to: number;
}

function at(day: string): number {
  return startOfDay(day, 'drying');
}

function spanOf({ arms, start }: DryingChartData): Span {
  const days = [start.day, ...arms.flatMap(({ walls }) => walls.flatMap((wall) => wall.map(({ day }) => day)))].map(at);
  const [from, to] = [Math.min(...days), Math.max(...days)];
  const air = Math.max(4 * msInDay, 0.015 * (to - from));
  return { from: from - air, to: to + air };
}

function domainOf({ arms }: DryingChartData) {
  const values = arms.flatMap(({ walls, means }) => [
    ...walls.flatMap((wall) => wall.map(({ value }) => value)),
    ...means.flatMap(({ mean, lower = mean, upper = mean }) => [mean, lower, upper]),
  ]);
  return paddedDomain(values, 0.06);
}
