import { displayText } from '../words/display-text.js';
import { formatNumber } from '../words/format-number.js';
import { levelInWords } from '../words/movement.js';
import type { ChartOptions, ChartSpecification } from './chart-specification.js';
import { pixels } from './marks.js';
import { type PairsPlot, pairMarks, pairsPlot, unitBelow } from './pairs-plot.js';
import { ink } from './theme.js';

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

/**
 * What a meter showed against what the cores beside it held, with the line through them. It ends where the cores end.
 *
 * @example calibrationChart(meter).title.text // ['The meter']
 */
export function calibrationChart(data: CalibrationChartData, options: ChartOptions = {}): ChartSpecification {
  const plot: PairsPlot = {
    title: data.title,
    subtitle: `${data.points.length} pairs of ${data.walls} walls. Grey: ${levelInWords(data.level)} interval of the line. Dashed: ${levelInWords(data.level)} of single readings. The line ends with the cores.`,
    description: describeCalibrationChart(data),
    across: {
      title: `moisture by core (${unitBelow(data.unit)})`,
      values: data.points.map(({ moisture }) => moisture),
    },
    upward: {
      title: `reading of the meter (${data.index ?? 'index'})`,
      values: [
        ...data.points.map(({ reading }) => reading),
        ...data.band.flatMap(({ singleLower, singleUpper }) => [singleLower, singleUpper]),
      ],
    },
    layers: ({ across, up }) => {
      const along = (of: (point: CalibrationBandPoint) => number) =>
        data.band.map((point) => {
          const reading = of(point);
          return { moisture: point.moisture, reading, x: across(point.moisture), y: up(reading) };
        });
      return [
        {
          data: {
            values: data.band.map(({ moisture, lower, upper }) => {
              return { moisture, lower, upper, x: across(moisture), y: up(lower), y2: up(upper) };
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
        pairMarks(
          data.points.map(({ moisture, reading }) => ({ moisture, reading, x: across(moisture), y: up(reading) })),
        ),
        line(
          along((point) => point.line),
          { stroke: ink.rule, strokeWidth: 2 },
        ),
      ];
    },
  };
  return pairsPlot(plot, options);
}

/** Single readings: dashed beside the line. */
const edge = { stroke: ink.soft, strokeWidth: 1, strokeDash: [4, 3] };

function line(values: readonly object[], look: object): ChartSpecification {
  return { data: { values }, mark: { type: 'line', ...look }, encoding: { x: pixels('x'), y: pixels('y') } };
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
