import { displayText } from '../words/display-text.js';
import { formatNumber } from '../words/format-number.js';
import { levelInWords } from '../words/movement.js';
import type { ChartOptions, ChartSpecification } from './chart-specification.js';
import { axesOnly, frame, paddedDomain, placeIn, thousandsIn, valueChannel } from './frame.js';
import { pixels, symbols } from './marks.js';
import { shortenMiddle, wrapText } from './text-layout.js';
import { fontSize, groupStyle, ink } from './theme.js';

export interface CalibrationPoint {
  /** By core. */
  readonly moisture: number;
  /** By meter. */
  readonly reading: number;
}

/** The line at one moisture: its interval, and that of single readings about it. */
export interface CalibrationBandPoint {
  readonly moisture: number;
  readonly line: number;
  readonly lower: number;
  readonly upper: number;
  readonly singleLower: number;
  readonly singleUpper: number;
}

export interface CalibrationChartData {
  readonly title: string;
  readonly points: readonly CalibrationPoint[];
  /** From the driest core to the wettest, for outside them the calibration says nothing. */
  readonly band: readonly CalibrationBandPoint[];
  readonly walls: number;
  /** What the readings are; `index` unless told. */
  readonly index?: string;
  /** Of the cores. */
  readonly unit: string;
  readonly decimals: number;
  readonly level: number;
}

const calibrationWidth = 480;
const left = 62;
const right = 16;
const height = 250;

/**
 * What a meter showed against what the cores beside it held, with the line through them. It ends where the cores end.
 *
 * @example calibrationChart(meter).title.text // ['The meter']
 */
export function calibrationChart(data: CalibrationChartData, options: ChartOptions = {}): ChartSpecification {
  const width = options.width ?? calibrationWidth;
  const plotWidth = width - left - right;
  const domain = paddedDomain(data.points.map(({ moisture }) => moisture));
  const readings = paddedDomain([
    ...data.points.map(({ reading }) => reading),
    ...data.band.flatMap(({ singleLower, singleUpper }) => [singleLower, singleUpper]),
  ]);
  const unit = shortenMiddle(displayText(data.unit), 140, fontSize.label);
  const title = wrapText(`moisture by core (${unit})`, plotWidth, fontSize.label);
  const style = groupStyle(0);
  const x = valueChannel(title, plotWidth, domain);
  const scale = { domain: [readings.from, readings.to], nice: false, zero: false };
  const axis = {
    title: `reading of the meter (${data.index ?? 'index'})`,
    titleX: 14 - left,
    tickCount: 5,
    grid: true,
    ...thousandsIn(readings),
  };
  const y = { type: 'quantitative', scale, axis } as const;
  const [place, up] = [placeIn(domain, plotWidth), placeIn({ from: readings.to, to: readings.from }, height)];
  const along = (of: (point: CalibrationBandPoint) => number) =>
    data.band.map((point) => ({
      moisture: point.moisture,
      reading: of(point),
      x: place(point.moisture),
      y: up(of(point)),
    }));
  const line = (values: readonly object[], look: object) => ({
    data: { values },
    mark: { type: 'line', ...look },
    encoding: { x: pixels('x'), y: pixels('y') },
  });
  const edge = { stroke: ink.soft, strokeWidth: 1, strokeDash: [4, 3] };
  return frame({
    title: displayText(data.title),
    subtitle: `${data.points.length} pairs of ${data.walls} walls. Grey: ${levelInWords(data.level)} interval of the line. Dashed: ${levelInWords(data.level)} of single readings. The line ends with the cores.`,
    description: describeCalibrationChart(data),
    width,
    left,
    right,
    above: 6,
    below: 30 + title.length * 13,
    height,
    layers: [
      axesOnly({ x, y }),
      {
        data: {
          values: data.band.map(({ moisture, lower, upper }) => {
            return { moisture, lower, upper, x: place(moisture), y: up(lower), y2: up(upper) };
          }),
        },
        mark: { type: 'area', fill: ink.grid, opacity: 1 },
        encoding: { x: pixels('x'), y: pixels('y'), y2: { field: 'y2' } },
      },
      line(
        along(({ singleLower }) => singleLower),
        edge,
      ),
      line(
        along(({ singleUpper }) => singleUpper),
        edge,
      ),
      symbols(
        data.points.map(({ moisture, reading }) => ({ moisture, reading, x: place(moisture), y: up(reading) })),
        {
          ...{ shape: style.shape, fill: ink.paper, stroke: style.colour },
          ...{ width: 1.2, size: 26, opacity: 0.8 },
        },
      ),
      line(
        along((point) => point.line),
        { stroke: ink.rule, strokeWidth: 2 },
      ),
    ],
  });
}

/**
 * The chart in words: how many pairs, and where the line begins and ends.
 *
 * @example describeCalibrationChart(meter).slice(-76) // 'The line runs from 41.0 (39.0 to 43.0) at 5.0 to 41.0 (39.0 to 43.0) at 5.0.'
 */
export function describeCalibrationChart(data: CalibrationChartData): string {
  const [first, last] = [data.band[0], data.band.at(-1)];
  const at = (point: CalibrationBandPoint) =>
    `${formatNumber(point.line, data.decimals)} (${formatNumber(point.lower, data.decimals)} to ${formatNumber(point.upper, data.decimals)}) at ${formatNumber(point.moisture, 1)}`;
  const line = first === undefined || last === undefined ? '' : ` The line runs from ${at(first)} to ${at(last)}.`;
  return `${displayText(data.title)}. Readings of the meter against moisture by core in ${displayText(data.unit)}, ${data.points.length} pairs of ${data.walls} walls.${line}`;
}
