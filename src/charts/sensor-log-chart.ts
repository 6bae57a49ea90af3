import { msInDay } from '../plain/days.js';
import { displayText } from '../words/display-text.js';
import { formatNumber } from '../words/format-number.js';
import { dayChannel, startOfDay } from './calendar-axes.js';
import { type ChartOptions, type ChartSpecification, defaultChartWidth } from './chart-specification.js';
import { countOf } from './count-of.js';
import { axesOnly, type Domain, frame, placeIn } from './frame.js';
import { boxes, levels, type PlacedMarks, pixels, symbols, texts } from './marks.js';
import { shortenMiddle } from './text-layout.js';
import { fontSize, groupStyle, ink } from './theme.js';

/** All days are ISO days. */
export interface SensorLogChartData {
  readonly title: string;
  readonly quantity: string;
  readonly unit: string;
  /** From the top strip to the lowest. */
  readonly sensors: readonly SensorStrip[];
  /** First and last day of the log: days between them on which a sensor has no mean that counts are marked. */
  readonly from: string;
  readonly to: string;
}

export interface SensorStrip {
  /** Its name and where it sits. */
  readonly label: string;
  /** The daily means that count, in order. */
  readonly days: readonly { readonly day: string; readonly mean: number }[];
}

const left = 112;
const right = 44;
const stripHeight = 20;
const stripGap = 5;
/** Of a strip; more days are put together, for a page shows no more. */
const mostPoints = 300;

/**
 * Every sensor's daily means in a strip of its own, all on one scale, and the days that are left out.
 *
 * @example sensorLogChart(log).title.text // ['The log']
 */
export function sensorLogChart(data: SensorLogChartData, options: ChartOptions = {}): ChartSpecification {
  const width = options.width ?? defaultChartWidth;
  const plotWidth = width - left - right;
  const span = { from: at(data.from), to: at(data.to) + msInDay };
  const domain = domainOf(data);
  const x = placeIn(span, plotWidth);
  const top = (strip: number) => strip * (stripHeight + stripGap);
  const y = (strip: number, value: number) =>
    top(strip) + stripHeight * (1 - (value - domain.from) / (domain.to - domain.from || 1));
  const bins = data.sensors.map((sensor) => binsOf(sensor, span));
  const { colour } = groupStyle(0);
  const points = bins.flatMap((own, strip) =>
    own.flatMap(({ time, width: wide, value, run }) =>
      value === undefined ? [] : [{ x: x(time + wide / 2), y: y(strip, value), key: `${strip} ${run}` }],
    ),
  );
  const lost = bins.flatMap((own, strip) =>
    own.flatMap(({ time, width: wide, isLost }) =>
      isLost ? [{ x: x(time), x2: x(time + wide), y: top(strip), y2: top(strip) + stripHeight }] : [],
    ),
  );
  const perRun = new Map<string, number>();
  for (const { key } of points) perRun.set(key, (perRun.get(key) ?? 0) + 1);
  const height = Math.max(stripHeight, top(data.sensors.length) - stripGap);
  return frame({
    title: displayText(data.title),
    subtitle: subtitleOf(data, domain),
    description: describeSensorLogChart(data),
    width,
    left,
    right,
    above: 6,
    below: 30,
    height,
    layers: [
      axesOnly({ x: dayChannel({ span, plotWidth, left, right }) }),
      boxes(lost, { fill: ink.window }),
      floors(data.sensors.length, top, plotWidth),
      {
        data: { values: points },
        mark: { type: 'line', stroke: colour, strokeWidth: 1.3 },
        encoding: { x: pixels('x'), y: pixels('y'), order: { field: 'x' }, detail: { field: 'key' } },
      },
      symbols(
        points.filter(({ key }) => perRun.get(key) === 1),
        { shape: 'circle', fill: colour, size: 7 },
      ),
      texts(
        data.sensors.map(({ label }, strip) => ({
          text: shortenMiddle(displayText(label), left - 12, fontSize.label),
          x: -8,
          y: top(strip) + stripHeight / 2,
        })),
        { align: 'right' },
      ),
      texts(
        [
          { text: formatNumber(domain.to, decimalsOf(domain)), x: plotWidth + 5, y: 4 },
          { text: formatNumber(domain.from, decimalsOf(domain)), x: plotWidth + 5, y: stripHeight - 3 },
        ],
        { soft: true },
      ),
    ],
  });
}

/**
 * The chart in words.
 *
 * @example describeSensorLogChart(log).slice(-36) // '6.4 on 2024-09-10, 91 days left out.'
 */
export function describeSensorLogChart(data: SensorLogChartData): string {
  const { title, quantity, unit, sensors, from, to } = data;
  const all = Math.round((at(to) - at(from)) / msInDay) + 1;
  const courses = sensors.map(({ label, days }) => {
    const [first, last] = [days.at(0), days.at(-1)];
    const name = displayText(label);
    if (first === undefined || last === undefined) return `${name}: no day that counts.`;
    const lost = all - days.length;
    const ends = `${formatNumber(first.mean, 1)} on ${first.day}, ${formatNumber(last.mean, 1)} on ${last.day}`;
    return `${name}: ${ends}${lost === 0 ? '' : `, ${countOf(lost, 'day')} left out`}.`;
  });
  return [
    `${displayText(title)}.`,
    `Daily means of ${displayText(quantity)} in ${displayText(unit)}, ${countOf(sensors.length, 'sensor')}, a strip each, from ${from} to ${to}.`,
    ...courses,
  ].join(' ');
}

function subtitleOf({ unit, sensors }: SensorLogChartData, domain: Domain): string {
  const [low, high] = [domain.from, domain.to].map((value) => formatNumber(value, decimalsOf(domain)));
  return `${countOf(sensors.length, 'sensor')}, a strip each, all from ${low} to ${high} ${displayText(unit)}. Line: daily means. Grey: days left out, without a reading or with too few that count.`;
}

interface Bin {
  readonly time: number;
  readonly width: number;
  /** Mean of the days of the bin that count; absent where none does. */
  readonly value?: number;
  /** Whether a day of it is left out. */
  readonly isLost: boolean;
  /** Bins that follow each other without a lost one between share it. */
  readonly run: number;
}

function binsOf({ days }: SensorStrip, span: Domain): readonly Bin[] {
  const means = new Map(days.map(({ day, mean }) => [at(day), mean]));
  const all = Math.round((span.to - span.from) / msInDay);
  const step = Math.ceil(all / mostPoints);
  const bins: Bin[] = [];
  let run = 0;
  for (let first = 0; first < all; first += step) {
    const last = Math.min(all, first + step);
    const values: number[] = [];
    for (let day = first; day < last; day++) {
      const mean = means.get(span.from + day * msInDay);
      if (mean !== undefined) values.push(mean);
    }
    if (values.length === 0) run++;
    bins.push({
      time: span.from + first * msInDay,
      width: (last - first) * msInDay,
      ...(values.length === 0 ? {} : { value: values.reduce((sum, value) => sum + value, 0) / values.length }),
      isLost: values.length < last - first,
      run,
    });
  }
  return bins;
}

function at(day: string): number {
  return startOfDay(day, 'sensor log');
}

function domainOf({ sensors }: SensorLogChartData): Domain {
  let [from, to] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (const { days } of sensors) {
    for (const { mean } of days) {
      if (mean < from) from = mean;
      if (mean > to) to = mean;
    }
  }
  return from <= to ? { from, to } : { from: 0, to: 1 };
}

function decimalsOf({ from, to }: Domain): number {
  const span = to - from;
  return span >= 20 || span === 0 ? 0 : span >= 2 ? 1 : 2;
}

/** A line under every strip. */
function floors(strips: number, top: (strip: number) => number, plotWidth: number): PlacedMarks {
  return levels(
    Array.from({ length: strips }, (_, strip) => ({ x: 0, x2: plotWidth, y: top(strip) + stripHeight })),
    { stroke: ink.grid, width: 1 },
  );
}
