import { isoDay, msInDay } from '../plain/days.js';
import { valuesBy } from '../plain/group-by.js';
import { displayText } from '../words/display-text.js';
import { dayChannel, startOfDay } from './calendar-axes.js';
import { type ChartOptions, type ChartSpecification, defaultChartWidth } from './chart-specification.js';
import { countOf } from './count-of.js';
import { axesOnly, frame, placeIn } from './frame.js';
import { boxes, type PlacedMarks, type PlacedText, symbols, texts } from './marks.js';
import { estimatedWidth, shortenMiddle } from './text-layout.js';
import { fontSize, ink } from './theme.js';
import { type TimelineArm, type TimelineWall, timelineWalls } from './timeline-walls.js';

/** All days are ISO days, `2024-03-31`. */
export interface TimelineChartData {
  readonly title: string;
  readonly plannedOn?: string;
  readonly windows: readonly { readonly label: string; readonly from: string; readonly to: string }[];
  /** The calendar of visits, a row a wall. */
  readonly arms: readonly TimelineArm[];
  /** In the order of their numbers in the table beside the chart, from 1. */
  readonly events: readonly { readonly day: string; readonly label: string }[];
}

const right = 16;
const laneHeight = 16;

interface Row {
  readonly name: string;
  readonly height: number;
  readonly draw: (top: number, place: (day: string) => number) => readonly PlacedMarks[];
}

/**
 * What happened when: the plan, the two windows, the numbered events of the diary, and below them the visits of every wall, arm by arm.
 *
 * @example timelineChart(plan).title.text // ['What happened when']
 */
export function timelineChart(data: TimelineChartData, options: ChartOptions = {}): ChartSpecification {
  const width = options.width ?? defaultChartWidth;
  const left = gutter(data, width);
  const plotWidth = width - left - right;
  const span = spanOf(data);
  const place = (day: string) => placeIn(span, plotWidth)(at(day));
  const marks: PlacedMarks[] = [];
  const names: PlacedText[] = [];
  let top = 6;
  for (const row of rowsOf(data, place, { left, plotWidth })) {
    // Two pixels in: the first letter of some fonts reaches out to the left.
    names.push({ text: row.name, x: 2 - left, y: top + 9 });
    marks.push(...row.draw(top, place));
    top += row.height + 10;
  }
  const walls = timelineWalls(data.arms, place, { top, left, plotWidth });
  return frame({
    title: displayText(data.title),
    subtitle: subtitleOf(data),
    description: describeTimelineChart(data),
    width,
    left,
    right,
    above: 4,
    below: 30,
    height: top + walls.height + 4,
    layers: [
      axesOnly({ x: dayChannel({ span, plotWidth, left, right, room: 88 }) }),
      // Areas under lines under points.
      ...(['rect', 'rule', 'point', 'text'] as const).flatMap((kind) =>
        [...marks, ...walls.marks].filter(({ placed }) => placed === kind),
      ),
      texts(names, { soft: true }),
    ],
  });
}

/**
 * The chart in words, with its days and counts.
 *
 * @example describeTimelineChart(plan).slice(-22) // '0 events in the diary.'
 */
export function describeTimelineChart(data: TimelineChartData): string {
  return [
    `${displayText(data.title)}.`,
    ...(data.plannedOn === undefined ? [] : [`Planned on ${data.plannedOn}.`]),
    ...data.windows.map((window) => `Window ${displayText(window.label)} from ${window.from} to ${window.to}.`),
    ...(data.arms.length === 0 ? ['No readings.'] : data.arms.map(armInWords)),
    `${countOf(data.events.length, 'event')} in the diary${data.events.length === 0 ? '.' : ':'}`,
    ...data.events.map((event, index) => `${index + 1}, ${event.day}, ${displayText(event.label)}.`),
  ].join(' ');
}

function armInWords({ label, walls }: TimelineArm): string {
  const days = [...new Set(walls.flatMap(({ read, cored }) => [...read, ...cored]))].sort();
  const cored = new Set(walls.flatMap((wall) => wall.cored)).size;
  const treated = countDays(walls.flatMap(({ treatedOn }) => treatedOn ?? []));
  const missed = walls.filter((wall) => wall.missed.length > 0);
  return [
    `${displayText(label)}, ${countOf(walls.length, 'wall')}: read on ${countOf(days.length, 'day')}, ${days.at(0)} to ${days.at(-1)}, cored on ${cored}.`,
    ...treated.map(([day, count]) => `${countOf(count, 'wall')} treated on ${day}.`),
    ...(missed.length === 0
      ? []
      : [
          `Missed visits: ${missed.map(({ wall, missed: days }) => `${displayText(wall)} on ${days.join(', ')}`).join('; ')}.`,
        ]),
  ].join(' ');
}

function countDays(days: readonly string[]): readonly (readonly [string, number])[] {
  const counts = new Map<string, number>();
  for (const day of days.toSorted()) counts.set(day, (counts.get(day) ?? 0) + 1);
  return [...counts];
}

/** Names those marks only that the picture holds. */
function subtitleOf({ arms, events }: TimelineChartData): string {
  const walls = arms.flatMap((arm) => arm.walls);
  const marks = [
    ...(walls.some(({ cored }) => cored.length > 0) ? ['Filled: cored.'] : []),
    ...(walls.some(({ read }) => read.length > 0) ? ['Upright: read.'] : []),
    ...(walls.some(({ missed }) => missed.length > 0) ? ['Ring: missed, while most walls were read.'] : []),
    ...(walls.some(({ treatedOn }) => treatedOn !== undefined) ? ['Arrowhead: treated.'] : []),
    ...(walls.some(({ windows }) => windows.length > 0) ? ['Grey: the wall’s before and after.'] : []),
    ...(events.length === 0 ? [] : ['The diary’s numbers are those of its table.']),
  ];
  return marks.join(' ');
}

function at(day: string): number {
  return startOfDay(day, 'timeline');
}

interface Span {
  readonly from: number;
  readonly to: number;
}

function spanOf(data: TimelineChartData): Span {
  const days = [
    ...(data.plannedOn === undefined ? [] : [data.plannedOn]),
    ...data.windows.flatMap((window) => [window.from, window.to]),
    ...data.arms.flatMap(({ walls }) => walls.flatMap(daysOfWall)),
    ...data.events.map((each) => each.day),
  ].map(at);
  if (days.length === 0) throw new RangeError('the timeline needs at least one day');
  const [from, to] = [Math.min(...days), Math.max(...days)];
  const air = Math.max(7 * msInDay, 0.02 * (to - from));
  return { from: from - air, to: to + air };
}

function daysOfWall({ read, cored, missed, treatedOn }: TimelineWall): readonly string[] {
  return [...read, ...cored, ...missed, ...(treatedOn === undefined ? [] : [treatedOn])];
}

interface Sizes {
  readonly left: number;
  readonly plotWidth: number;
}

function gutter({ arms }: TimelineChartData, width: number): number {
  const names = arms.flatMap(({ walls }) => walls.map(({ wall }) => estimatedWidth(displayText(wall), fontSize.label)));
  return Math.min(Math.max(78, ...names.map((name) => name + 14)), width * 0.36);
}

function rowsOf(data: TimelineChartData, place: (day: string) => number, { left, plotWidth }: Sizes): readonly Row[] {
  const lanes = layEvents(data, place, plotWidth);
  return [
    ...(data.plannedOn === undefined ? [] : [planRow(data.plannedOn)]),
    ...data.windows.map((window) => windowRow(window, left)),
    ...(lanes.length === 0 ? [] : [diaryRow(lanes)]),
  ];
}

function planRow(day: string): Row {
  return {
    name: 'plan fixed',
    height: 18,
    draw: (top, place) => [symbols([{ x: place(day), y: top + 9 }], { shape: 'diamond', ...eventLook(ink.soft) })],
  };
}

/** A row for each window, so that short windows close to each other stay apart. */
function windowRow(window: TimelineChartData['windows'][number], left: number): Row {
  return {
    name: shortenMiddle(displayText(window.label), left - 8, fontSize.label),
    height: 14,
    draw: (top, place) => {
      const [x, x2] = [place(window.from), place(window.to)];
      return [boxes([{ x, x2: Math.max(x2, x + 2), y: top + 3, y2: top + 15 }], { fill: ink.window })];
    },
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
          { shape: 'circle', ...eventLook('#b3541e') },
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
  const days = valuesBy(
    data.events.entries(),
    ([, event]) => isoDay(event.day),
    ([index]) => index + 1,
  );
  return [...days].map(([day, numbers]) => ({ day, numbers })).sort((a, b) => (a.day < b.day ? -1 : 1));
}

/** `3`, `3–5`, or `3 and 4 more`: short enough for a mark. */
function compactNumbers(numbers: readonly number[]): string {
  const [first, last] = [numbers[0] ?? 0, numbers.at(-1) ?? 0];
  if (numbers.length === 1) return `${first}`;
  return last - first === numbers.length - 1 ? `${first}–${last}` : `${first} +${numbers.length - 1}`;
}

function eventLook(colour: string) {
  return { fill: colour, stroke: colour, width: 2, size: 55 };
}
