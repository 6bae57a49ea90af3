import { displayText } from '../words/display-text.js';
import { calendarTicks, dayLength } from './calendar-ticks.js';
import { type ChartOptions, type ChartSpecification, defaultChartWidth } from './chart-specification.js';
import { countOf } from './count-of.js';
import { frame, pixels } from './frame.js';
import { boxes, type PlacedText, texts } from './marks.js';
import { estimatedWidth, shortenMiddle } from './text-layout.js';
import { fontSize, groupStyle, ink } from './theme.js';

/** All days are ISO days, `2024-03-31`. */
export interface TimelineChartData {
  readonly title: string;
  readonly plannedOn?: string;
  readonly windows: readonly { readonly label: string; readonly from: string; readonly to: string }[];
  readonly readings: readonly { readonly day: string; readonly count: number }[];
  readonly treatments: readonly { readonly day: string; readonly walls: number }[];
  /** In the order of their numbers in the table beside the chart, from 1. */
  readonly events: readonly { readonly day: string; readonly label: string }[];
}

const left = 78;
const right = 16;
const laneHeight = 16;

interface Row {
  readonly name: string;
  readonly height: number;
  readonly draw: (top: number, place: (day: string) => number) => readonly ChartSpecification[];
}

/**
 * What happened when: the plan, the two windows, the treatment, the readings and the numbered events of the diary.
 *
 * @example timelineChart(plan).title.text // ['What happened when']
 */
export function timelineChart(data: TimelineChartData, options: ChartOptions = {}): ChartSpecification {
  const width = options.width ?? defaultChartWidth;
  const plotWidth = width - left - right;
  const span = spanOf(data);
  const place = (day: string) => ((at(day) - span.from) / (span.to - span.from)) * plotWidth;
  const layers: ChartSpecification[] = [timeAxis(span, plotWidth)];
  const names: PlacedText[] = [];
  let top = 6;
  for (const row of rowsOf(data, place, plotWidth)) {
    // Two pixels in: the first letter of some fonts reaches out to the left.
    names.push({ text: row.name, x: 2 - left, y: top + 9 });
    layers.push(...row.draw(top, place));
    top += row.height + 10;
  }
  return frame({
    title: displayText(data.title),
    subtitle: subtitleOf(data),
    description: describeTimelineChart(data),
    width,
    left,
    right,
    above: 4,
    below: 30,
    height: top,
    layers: [...layers, texts(names, { soft: true })],
  });
}

/**
 * The chart in words, with its days and counts.
 *
 * @example describeTimelineChart(plan).slice(-54) // '12 walls treated on 2024-06-10. 0 events in the diary.'
 */
export function describeTimelineChart(data: TimelineChartData): string {
  const readings = data.readings.reduce((sum, each) => sum + each.count, 0);
  const [first, last] = [data.readings.at(0)?.day, data.readings.at(-1)?.day];
  return [
    `${displayText(data.title)}.`,
    ...(data.plannedOn === undefined ? [] : [`Planned on ${data.plannedOn}.`]),
    ...data.windows.map((window) => `Window ${displayText(window.label)} from ${window.from} to ${window.to}.`),
    ...(first === undefined || last === undefined
      ? ['No readings.']
      : [`${countOf(readings, 'reading')} on ${countOf(data.readings.length, 'day')}, ${first} to ${last}.`]),
    ...data.treatments.map((each) => `${countOf(each.walls, 'wall')} treated on ${each.day}.`),
    `${countOf(data.events.length, 'event')} in the diary${data.events.length === 0 ? '.' : ':'}`,
    ...data.events.map((event, index) => `${index + 1}, ${event.day}, ${displayText(event.label)}.`),
  ].join(' ');
}

function subtitleOf(data: TimelineChartData): string {
  const readings = data.readings.reduce((sum, each) => sum + each.count, 0);
  const most = Math.max(0, ...data.readings.map((each) => each.count));
  const counts = `${countOf(readings, 'reading')} on ${countOf(data.readings.length, 'day')}; the tallest bar is ${countOf(most, 'reading')} on one day.`;
  return data.events.length === 0 ? counts : `${counts} The diary’s numbers are those of its table.`;
}

function at(day: string): number {
  const time = Date.parse(`${day.slice(0, 10)}T00:00:00Z`);
  if (Number.isNaN(time)) throw new RangeError(`the timeline needs ISO days, got ${day}`);
  return time;
}

interface Span {
  readonly from: number;
  readonly to: number;
}

function spanOf(data: TimelineChartData): Span {
  const days = [
    ...(data.plannedOn === undefined ? [] : [data.plannedOn]),
    ...data.windows.flatMap((window) => [window.from, window.to]),
    ...data.readings.map((each) => each.day),
    ...data.treatments.map((each) => each.day),
    ...data.events.map((each) => each.day),
  ].map(at);
  if (days.length === 0) throw new RangeError('the timeline needs at least one day');
  const [from, to] = [Math.min(...days), Math.max(...days)];
  const air = Math.max(7 * dayLength, 0.02 * (to - from));
  return { from: from - air, to: to + air };
}

function rowsOf(data: TimelineChartData, place: (day: string) => number, plotWidth: number): readonly Row[] {
  const lanes = layEvents(data, place, plotWidth);
  return [
    ...(data.plannedOn === undefined ? [] : [planRow(data.plannedOn)]),
    ...data.windows.map(windowRow),
    ...(data.treatments.length === 0 ? [] : [treatmentRow(data)]),
    ...(data.readings.length === 0 ? [] : [readingsRow(data)]),
    ...(lanes.length === 0 ? [] : [diaryRow(lanes)]),
  ];
}

function planRow(day: string): Row {
  return {
    name: 'plan fixed',
    height: 18,
    draw: (top, place) => [symbols([{ x: place(day), y: top + 9 }], 'diamond', ink.soft)],
  };
}

/** A row for each window, so that short windows close to each other stay apart. */
function windowRow(window: TimelineChartData['windows'][number]): Row {
  return {
    name: shortenMiddle(displayText(window.label), left - 8, fontSize.label),
    height: 14,
    draw: (top, place) => {
      const [x, x2] = [place(window.from), place(window.to)];
      return [boxes([{ x, x2: Math.max(x2, x + 2), y: top + 3, y2: top + 15 }], ink.window)];
    },
  };
}

function treatmentRow(data: TimelineChartData): Row {
  return {
    name: 'treatment',
    height: 18,
    draw: (top, place) => [
      symbols(
        data.treatments.map((each) => ({ x: place(each.day), y: top + 9 })),
        'triangle-down',
        groupStyle(0).colour,
      ),
    ],
  };
}

function readingsRow(data: TimelineChartData): Row {
  const height = 30;
  const most = Math.max(...data.readings.map((each) => each.count));
  return {
    name: 'readings',
    height,
    draw: (top, place) => [
      {
        data: {
          values: data.readings.map((each) => ({
            x: place(each.day),
            y: top + height,
            y2: top + height - (height * each.count) / most,
          })),
        },
        mark: { type: 'rule', stroke: ink.text, strokeWidth: 2 },
        encoding: { x: pixels('x'), y: pixels('y'), y2: { field: 'y2' } },
      },
    ],
  };
}

interface LaidEvent {
  readonly x: number;
  readonly lane: number;
  readonly text: string;
  readonly textX: number;
  readonly end: boolean;
}

function diaryRow(events: readonly LaidEvent[]): Row {
  const lanes = Math.max(...events.map((event) => event.lane)) + 1;
  const y = (event: LaidEvent, top: number) => top + 9 + event.lane * laneHeight;
  return {
    name: 'diary',
    height: lanes * laneHeight + 2,
    draw: (top) => {
      const words = (end: boolean): PlacedText[] =>
        events
          .filter((event) => event.end === end)
          .map((event) => ({ text: event.text, x: event.textX, y: y(event, top) }));
      return [
        symbols(
          events.map((event) => ({ x: event.x, y: y(event, top) })),
          'circle',
          '#b3541e',
        ),
        texts(words(false)),
        texts(words(true), { align: 'right' }),
      ];
    },
  };
}

/** Events of one day share a mark; marks whose numbers would touch go into lanes below each other. */
function layEvents(data: TimelineChartData, place: (day: string) => number, plotWidth: number): readonly LaidEvent[] {
  const laneEnds: number[] = [];
  return eventsByDay(data).map(({ day, numbers }) => {
    const x = place(day);
    const text = compactNumbers(numbers);
    const words = estimatedWidth(text, fontSize.label) + 8;
    const end = x + words > plotWidth + right;
    const [from, to] = end ? [x - words, x + 6] : [x - 6, x + words];
    const free = laneEnds.findIndex((laneEnd) => laneEnd + 4 <= from);
    const lane = free === -1 ? laneEnds.length : free;
    laneEnds[lane] = to;
    return { x, lane, text, textX: end ? x - 7 : x + 7, end };
  });
}

function eventsByDay(data: TimelineChartData): { day: string; numbers: number[] }[] {
  const days = new Map<string, number[]>();
  for (const [index, event] of data.events.entries()) {
    const day = event.day.slice(0, 10);
    days.set(day, [...(days.get(day) ?? []), index + 1]);
  }
  return [...days].map(([day, numbers]) => ({ day, numbers })).sort((a, b) => (a.day < b.day ? -1 : 1));
}

/** `3`, `3–5`, or `3 and 4 more`: short enough for a mark. */
function compactNumbers(numbers: readonly number[]): string {
  const [first, last] = [numbers[0] ?? 0, numbers.at(-1) ?? 0];
  if (numbers.length === 1) return `${first}`;
  return last - first === numbers.length - 1 ? `${first}–${last}` : `${first} +${numbers.length - 1}`;
}

function symbols(
  values: readonly { readonly x: number; readonly y: number }[],
  shape: string,
  colour: string,
): ChartSpecification {
  return {
    data: { values },
    mark: { type: 'point', shape, fill: colour, stroke: colour, opacity: 1, size: 55 },
    encoding: { x: pixels('x'), y: pixels('y') },
  };
}

/** Draws nothing: it carries the axis. In universal time, so that the picture is the same in every time zone. */
function timeAxis(span: Span, plotWidth: number): ChartSpecification {
  const place = (time: number) => ((time - span.from) / (span.to - span.from)) * plotWidth;
  const halfLabel = estimatedWidth('30 May 2024', fontSize.label) / 2;
  // A label that would run out of the picture goes, with its line.
  const ticks = calendarTicks(span, Math.floor(plotWidth / 88)).filter(
    (time) => place(time) + halfLabel < plotWidth + right,
  );
  return {
    data: { values: [{ time: span.from }] },
    mark: { type: 'point', opacity: 0 },
    encoding: {
      x: {
        field: 'time',
        type: 'temporal',
        scale: { type: 'utc', domain: [span.from, span.to], nice: false },
        axis: { title: null, format: '%-d %b %Y', grid: true, values: ticks },
      },
    },
  };
}
