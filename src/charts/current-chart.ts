import { msInDay } from '../plain/days.js';
import { displayText } from '../words/display-text.js';
import { formatNumber } from '../words/format-number.js';
import { calendarAxes, startOfDay } from './calendar-axes.js';
import { type ChartOptions, type ChartSpecification, defaultChartWidth } from './chart-specification.js';
import { countOf } from './count-of.js';
import { type ChartPart, type Domain, frame, placeIn } from './frame.js';
import { type PlacedMarks, pixels, symbols, texts, upright } from './marks.js';
import { wrapText } from './text-layout.js';
import { fontSize, groupStyle, ink } from './theme.js';

/** All days are ISO days. */
export interface CurrentChartData {
  readonly title: string;
  readonly unit: string;
  readonly arms: readonly CurrentArm[];
  /** Days on which something was done or happened. */
  readonly marks: readonly { readonly day: string; readonly label: string }[];
}

export interface CurrentArm {
  readonly arm: string;
  readonly circuits: readonly CurrentCircuit[];
}

export interface CurrentCircuit {
  readonly wall: string;
  /** Runs without an interruption. */
  readonly runs: readonly (readonly { readonly day: string; readonly value: number }[])[];
}

const left = 62;
const right = 16;
const height = 220;
/** Beyond so many, points would hide their lines. */
const mostPoints = 500;

/**
 * The current of every circuit over time, a thin line for each, broken where it was off.
 *
 * @example currentChart(currents).title.text // ['Current']
 */
export function currentChart(data: CurrentChartData, options: ChartOptions = {}): ChartSpecification {
  const width = options.width ?? defaultChartWidth;
  const plotWidth = width - left - right;
  const span = spanOf(data);
  const domain = { from: 0, to: 1.06 * Math.max(0, ...valuesOf(data.arms)) || 1 };
  const x = (day: string) => placeIn(span, plotWidth)(at(day));
  const y = (value: number) => height - (value / domain.to) * height;
  const hasPoints = valuesOf(data.arms).length <= mostPoints;
  const title = wrapText(`Current (${displayText(data.unit)})`, 0.7 * height, fontSize.label);
  return frame({
    title: displayText(data.title),
    subtitle: subtitleOf(data, hasPoints),
    description: describeCurrentChart(data),
    ...{ width, left, right, above: 6, below: 30, height },
    layers: [
      calendarAxes({ span, domain, plotWidth, height, left, right, title }),
      ...data.arms.flatMap((arm, index) => armLayers(arm, index, { x, y, hasPoints })),
      ...data.marks.flatMap(({ day, label }) => markLayers(x(day), displayText(label), plotWidth)),
    ],
  });
}

/**
 * The chart in words.
 *
 * @example describeCurrentChart(currents).slice(-79) // 'treated: 1 wall, 1 circuit, 42.0 at first, 20.0 at last. treated on 2024-06-10.'
 */
export function describeCurrentChart({ title, unit, arms, marks }: CurrentChartData): string {
  return [
    `${displayText(title)}.`,
    `Current in ${displayText(unit)} over time, a thin line for each circuit, broken where it was off.`,
    ...arms.map(armInWords),
    ...marks.map(({ day, label }) => `${displayText(label)} on ${day}.`),
  ].join(' ');
}

function armInWords({ arm, circuits }: CurrentArm): string {
  if (circuits.length === 0) return `${displayText(arm)}: no current on record.`;
  const breaks = circuits.reduce((sum, { runs }) => sum + Math.max(0, runs.length - 1), 0);
  const values = circuits.map(({ runs }) => runs.flat().map(({ value }) => value));
  const [first, last] = [0, -1].map((index) => rangeInWords(values.flatMap((own) => own.at(index) ?? [])));
  const broken = breaks === 0 ? '' : `, ${countOf(breaks, 'interruption')}`;
  return `${displayText(arm)}: ${countsOf(circuits)}, ${first} at first, ${last} at last${broken}.`;
}

function rangeInWords(values: readonly number[]): string {
  const [least, most] = [Math.min(...values), Math.max(...values)].map((value) => formatNumber(value, 1));
  return least === most ? `${least}` : `${least} to ${most}`;
}

function countsOf(circuits: readonly CurrentCircuit[]): string {
  return `${countOf(new Set(circuits.map(({ wall }) => wall)).size, 'wall')}, ${countOf(circuits.length, 'circuit')}`;
}

function subtitleOf({ unit, arms }: CurrentChartData, hasPoints: boolean): string {
  const names = arms.map(({ arm, circuits }, k) => {
    const counts = circuits.length === 0 ? 'no current on record' : countsOf(circuits);
    return `${groupStyle(k).filled} ${displayText(arm)} (${counts})`;
  });
  const points = hasPoints ? ' Points: means of a day’s readings.' : '';
  return `In ${displayText(unit)}. Thin: circuits of ${names.join(' and ')}, broken where they were off.${points}`;
}

interface Places {
  readonly x: (day: string) => number;
  readonly y: (value: number) => number;
  readonly hasPoints: boolean;
}

function armLayers({ circuits }: CurrentArm, index: number, places: Places): readonly ChartPart[] {
  const { colour, dash, shape } = groupStyle(index);
  const runs = circuits.flatMap((circuit) => circuit.runs);
  const values = runs.flatMap((run, key) =>
    run.map(({ day, value }) => ({ x: places.x(day), y: places.y(value), key })),
  );
  // A run of one day has no line.
  const points = places.hasPoints ? values : values.filter(({ key }) => runs[key]?.length === 1);
  return [
    {
      data: { values },
      mark: { type: 'line', stroke: colour, strokeWidth: 1, opacity: 0.7, strokeDash: dash },
      encoding: { x: pixels('x'), y: pixels('y'), order: { field: 'x' }, detail: { field: 'key' } },
    },
    symbols(points, { shape, fill: colour, stroke: ink.paper, width: 0.5, size: 24 }),
  ];
}

function markLayers(x: number, label: string, plotWidth: number): readonly PlacedMarks[] {
  const isLate = x > plotWidth / 2;
  const text = { text: label, x: x + (isLate ? -5 : 5), y: 8 };
  return [upright(x, 0, height, { dash: [2, 3] }), texts([text], { align: isLate ? 'right' : 'left', soft: true })];
}

function at(day: string): number {
  return startOfDay(day, 'current');
}

function valuesOf(arms: readonly CurrentArm[]): readonly number[] {
  return arms.flatMap(({ circuits }) => circuits.flatMap(({ runs }) => runs.flat().map(({ value }) => value)));
}

function spanOf({ arms, marks }: CurrentChartData): Domain {
  const days = arms.flatMap(({ circuits }) => circuits.flatMap(({ runs }) => runs.flat().map(({ day }) => at(day))));
  const times = [...days, ...marks.map(({ day }) => at(day))];
  if (times.length === 0) throw new RangeError('the current chart needs at least one day');
  const [from, to] = [Math.min(...times), Math.max(...times)];
  const air = Math.max(4 * msInDay, 0.015 * (to - from));
  return { from: from - air, to: to + air };
}
