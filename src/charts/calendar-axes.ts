import { dayNumber, isIsoDay, isoDay, msInDay } from '../plain/days.js';
import { calendarTicks } from './calendar-ticks.js';
import type { ChartSpecification } from './chart-specification.js';
import type { Domain } from './frame.js';
import { estimatedWidth } from './text-layout.js';
import { fontSize } from './theme.js';

/** Milliseconds of the midnight at which an ISO day begins, in universal time. */
export function startOfDay(day: string, chart: string): number {
  if (!isIsoDay(isoDay(day))) throw new RangeError(`the ${chart} chart needs ISO days, got ${day}`);
  return dayNumber(day) * msInDay;
}

interface CalendarAxes {
  readonly span: Domain;
  readonly domain: Domain;
  readonly plotWidth: number;
  readonly height: number;
  /** Margins beside the plot, into which a label of the days may reach. */
  readonly left: number;
  readonly right: number;
  /** Of the values, in lines. */
  readonly title: readonly string[];
}

/** Days below and values at the left. Draws nothing else. */
export function calendarAxes(axes: CalendarAxes): ChartSpecification {
  const { span, domain, plotWidth, height, left, right, title } = axes;
  const halfLabel = estimatedWidth('30 May 2024', fontSize.label) / 2;
  const place = (time: number) => ((time - span.from) / (span.to - span.from)) * plotWidth;
  const ticks = calendarTicks(span, Math.floor(plotWidth / 76)).filter(
    (time) => place(time) + halfLabel < plotWidth + right && place(time) - halfLabel > -left,
  );
  return {
    data: { values: [{ time: span.from, value: domain.from }] },
    mark: { type: 'point', opacity: 0 },
    encoding: {
      x: {
        field: 'time',
        type: 'temporal',
        scale: { type: 'utc', domain: [span.from, span.to], nice: false },
        axis: { title: null, format: '%-d %b %Y', grid: true, values: ticks },
      },
      y: {
        field: 'value',
        type: 'quantitative',
        scale: { domain: [domain.from, domain.to], nice: false, zero: false, range: [height, 0] },
        axis: { title, grid: true, tickCount: 5, titlePadding: 8 },
      },
    },
  };
}
