import { displayText } from '../words/display-text.js';
import type { ChartOptions, ChartSpecification } from './chart-specification.js';
import { axesOnly, type ChartPart, frame, paddedDomain, placeIn, thousandsIn, valueChannel } from './frame.js';
import { type PlacedMarks, symbols } from './marks.js';
import { shortenMiddle, wrapText } from './text-layout.js';
import { fontSize, groupStyle, ink } from './theme.js';

/** Two numbers of each pair of readings, one against the other. */
export interface PairsPlot {
  readonly title: string;
  readonly subtitle: string;
  readonly description: string;
  readonly across: PlotAxis;
  readonly upward: PlotAxis;
  readonly layers: (places: PlotPlaces) => readonly ChartPart[];
}

interface PlotAxis {
  readonly title: string;
  /** All that is to be seen. */
  readonly values: readonly number[];
}

/** Where values lie in the plot, in pixels. */
interface PlotPlaces {
  readonly across: (value: number) => number;
  readonly up: (value: number) => number;
  readonly plotWidth: number;
}

const usualWidth = 480;
const left = 62;
const right = 16;
const height = 250;

/** Pairs of readings in a plot with an axis of values either way. */
export function pairsPlot(plot: PairsPlot, options: ChartOptions): ChartSpecification {
  const width = options.width ?? usualWidth;
  const plotWidth = width - left - right;
  const [domain, rising] = [paddedDomain(plot.across.values), paddedDomain(plot.upward.values)];
  const title = wrapText(plot.across.title, plotWidth, fontSize.label);
  const x = valueChannel(title, plotWidth, domain);
  const scale = { domain: [rising.from, rising.to], nice: false, zero: false };
  const axis = { title: plot.upward.title, titleX: 14 - left, tickCount: 5, grid: true, ...thousandsIn(rising) };
  const y = { type: 'quantitative', scale, axis } as const;
  const places = {
    across: placeIn(domain, plotWidth),
    up: placeIn({ from: rising.to, to: rising.from }, height),
    plotWidth,
  };
  return frame({
    title: displayText(plot.title),
    subtitle: plot.subtitle,
    description: plot.description,
    width,
    left,
    right,
    above: 6,
    below: 30 + title.length * 13,
    height,
    layers: [axesOnly({ x, y }), ...plot.layers(places)],
  });
}

/** A unit as the axis below a plot has room for it. */
export function unitBelow(unit: string): string {
  return shortenMiddle(displayText(unit), 140, fontSize.label);
}

/** The pairs themselves: open, so that those behind are seen too. */
export function pairMarks(points: readonly { readonly x: number; readonly y: number }[]): PlacedMarks {
  const { shape, colour } = groupStyle(0);
  return symbols(points, { shape, fill: ink.paper, stroke: colour, width: 1.2, size: 26, opacity: 0.8 });
}
