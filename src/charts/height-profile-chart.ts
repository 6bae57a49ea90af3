import { displayText } from '../words/display-text.js';
import { formatNumber, formatStated } from '../words/format-number.js';
import type { ChartOptions, ChartSpecification } from './chart-specification.js';
import { countOf } from './count-of.js';
import {
  type AxisChannel,
  axesOnly,
  type Domain,
  frame,
  paddedDomain,
  placeIn,
  thousandsIn,
  valueChannel,
} from './frame.js';
import { pixels, symbols } from './marks.js';
import { shortenMiddle, wrapText } from './text-layout.js';
import { fontSize, groupStyle, ink } from './theme.js';

export interface HeightPoint {
  readonly height_mm: number;
  readonly value: number;
}

export interface HeightSeries {
  /** One point a station. */
  readonly stations: readonly HeightPoint[];
  /** One point a height, from the lowest up; empty where heights are too many to average. */
  readonly means: readonly HeightPoint[];
}

export interface HeightProfileChartData {
  readonly title: string;
  readonly before: HeightSeries;
  readonly after: HeightSeries;
  readonly walls: number;
  readonly stations: number;
  readonly quantity: string;
  readonly unit: string;
  readonly decimals: number;
  /** Which of the theme's styles; so that an arm looks the same in every chart. */
  readonly style: number;
  /** For several charts on one scale; default to the ranges of the values. */
  readonly valueDomain?: Domain;
  readonly heightDomain?: Domain;
}

const heightProfileWidth = 312;
const left = 58;
const right = 14;
const height = 230;

/**
 * Moisture against height for one arm: stations as faint points, the means at each height joined, before dashed and after full.
 *
 * @example heightProfileChart(heights).title.text // ['Heights']
 */
export function heightProfileChart(data: HeightProfileChartData, options: ChartOptions = {}): ChartSpecification {
  const width = options.width ?? heightProfileWidth;
  const plotWidth = width - left - right;
  const all = [...data.before.stations, ...data.after.stations];
  const valueDomain = data.valueDomain ?? paddedDomain(all.map((point) => point.value));
  const heightDomain =
    data.heightDomain ??
    paddedDomain(
      all.map((point) => point.height_mm),
      0.1,
    );
  const style = groupStyle(data.style);
  const unit = shortenMiddle(displayText(data.unit), 120, fontSize.label);
  const title = wrapText(
    `${shortenMiddle(displayText(data.quantity), 200, fontSize.label)} (${unit})`,
    plotWidth,
    fontSize.label,
  );
  const [across, up] = [
    placeIn(valueDomain, plotWidth),
    placeIn({ from: heightDomain.to, to: heightDomain.from }, height),
  ];
  const placed = (points: readonly HeightPoint[]): readonly PlacedPoint[] =>
    points.map(({ height_mm, value }) => ({ height_mm, value, x: across(value), y: up(height_mm) }));
  const looks = [
    { series: data.before, fill: ink.paper, dash: [4, 3] },
    { series: data.after, fill: style.colour, dash: [] },
  ];
  const point = { shape: style.shape, stroke: style.colour };
  const hasMeans = data.before.means.length > 0;
  return frame({
    title: displayText(data.title),
    subtitle: `${countsOf(data)}. Small: stations. ${hasMeans ? 'Large: means; ' : ''}${style.hollow} before${hasMeans ? ', dashed' : ''}; ${style.filled} after${hasMeans ? ', full' : ''}.`,
    description: describeHeightProfileChart(data),
    width,
    left,
    right,
    above: 6,
    below: 30 + title.length * 13,
    height,
    layers: [
      axes(valueChannel(title, plotWidth, valueDomain), heightDomain),
      ...looks.map(({ series, fill }) =>
        symbols(placed(series.stations), { ...point, fill, width: 1, size: 14, opacity: 0.4 }),
      ),
      ...looks.flatMap(({ series, dash }) => joined(placed(series.means), style.colour, dash)),
      ...looks.map(({ series, fill }) => symbols(placed(series.means), { ...point, fill, width: 1.5, size: 64 })),
    ],
  });
}

/**
 * The chart in words: the means at each height, before and after.
 *
 * @example describeHeightProfileChart(heights).slice(-38) // 'after: 11.0 at 200 mm, 5.0 at 1000 mm.'
 */
export function describeHeightProfileChart(data: HeightProfileChartData): string {
  const value = (point: HeightPoint) =>
    `${formatNumber(point.value, data.decimals)} at ${formatStated(point.height_mm)} mm`;
  const words = (name: string, each: HeightSeries) =>
    each.means.length === 0
      ? `${name}: ${countOf(each.stations.length, 'station')}, no means`
      : `${name}: ${each.means.map(value).join(', ')}`;
  return `${displayText(data.title)}. By height, ${displayText(data.quantity)} in ${displayText(data.unit)}, ${countsOf(data)}. Means ${words('before', data.before)}; ${words('after', data.after)}.`;
}

function countsOf({ walls, stations }: HeightProfileChartData): string {
  return `${countOf(walls, 'wall')}, ${countOf(stations, 'station')}`;
}

type PlacedPoint = HeightPoint & { readonly x: number; readonly y: number };

function axes(x: AxisChannel, heights: Domain): ChartSpecification {
  const y: AxisChannel = {
    type: 'quantitative',
    scale: { domain: [heights.from, heights.to], nice: false, zero: false },
    axis: {
      ...{ title: 'height above floor (mm)', titleX: 12 - left, tickCount: 5, format: ',d', grid: true },
      ...thousandsIn(heights),
    },
  };
  return axesOnly({ x, y });
}

/** From the lowest height up; nothing where heights are too many to average. */
function joined(means: readonly PlacedPoint[], stroke: string, dash: readonly number[]): ChartSpecification[] {
  if (means.length === 0) return [];
  return [
    {
      data: { values: means },
      mark: { type: 'line', stroke, strokeWidth: 1.5, strokeDash: dash, interpolate: 'linear', orient: 'horizontal' },
      encoding: { x: pixels('x'), y: pixels('y'), order: { field: 'height_mm', type: 'quantitative' } },
    },
  ];
}
