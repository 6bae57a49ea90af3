import { dayNumber, isIsoDay, isoDay, msInDay } from '../plain/days.js';
import { calendarTicks } from './calendar-ticks.js';
import type { ChartSpecification } from './chart-specification.js';
import { type AxisChannel, axesOnly, type Domain, placeIn, thousandsIn } from './frame.js';
import { estimatedWidth } from './text-layout.js';
import { fontSize } from './theme.js';

/** Milliseconds of the midnight at which an ISO day begins, in universal time. */
export function startOfDay(day: string, chart: string): number {
  if (!isIsoDay(isoDay(day))) throw new RangeError(`the ${chart} chart needs ISO days, got ${day}`);
  return dayNumber(day) * msInDay;
}

interface DayAxis {
  readonly span: Domain;
  readonly plotWidth: number;
  /** Margins beside the plot, into which a label may reach. */
  readonly left: number;
  readonly right: number;
  /** Room for each label. */
  readonly room?: number;
}

/** Days from left to right, in universal time, so that the picture is the same in every time zone. */
export function dayChannel({ span, plotWidth, left, right, room = 76 }: DayAxis): AxisChannel {
  const halfLabel = estimatedWidth('30 May 2024', fontSize.label) / 2;
  const place = placeIn(span, plotWidth);
  // A label that would run out of the picture goes, with its line.
  const values = calendarTicks(span, Math.floor(plotWidth / room)).filter(
    (time) => place(time) + halfLabel < plotWidth + right && place(time) - halfLabel > -left,
  );
  return {
    type: 'temporal',
    scale: { type: 'utc', domain: [span.from, span.to], nice: false },
    axis: { title: null, format: '%-d %b %Y', grid: true, values },
  };
}

interface CalendarAxes extends DayAxis {
  readonly domain: Domain;
  readonly height: number;
  /** Of the values, in lines. */
  readonly title: readonly string[];
}

/** Days below and values at the left. Draws nothing else. */
export function calendarAxes({ domain, height, title, ...days }: CalendarAxes): ChartSpecification {
  return axesOnly({
    x: dayChannel(days),
    y: {
      type: 'quantitative',
      scale: { domain: [domain.from, domain.to], nice: false, zero: false, range: [height, 0] },
      axis: { title, grid: true, tickCount: 5, titlePadding: 8, ...thousandsIn(domain) },
    },
  });
}
