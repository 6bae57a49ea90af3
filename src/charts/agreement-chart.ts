import { displayText } from '../words/display-text.js';
import { formatSigned } from '../words/format-number.js';
import type { ChartOptions, ChartSpecification } from './chart-specification.js';
import { axesOnly, frame, paddedDomain, placeIn, thousandsIn, valueChannel } from './frame.js';
import { boxes, levels, symbols } from './marks.js';
import { shortenMiddle, wrapText } from './text-layout.js';
import { fontSize, groupStyle, ink } from './theme.js';

export interface AgreementPoint {
  /** Of the two methods. */
  readonly mean: number;
  /** One method less the other. */
  readonly difference: number;
}

/** A mean difference or a limit, with its interval. */
export interface AgreementLine {
  readonly estimate: number;
  readonly lower: number;
  readonly upper: number;
}

export interface AgreementChartData {
  readonly title: string;
  /** What the difference is, such as `meter less core`. */
  readonly difference: string;
  readonly points: readonly AgreementPoint[];
  readonly bias: AgreementLine;
  readonly lowerLimit: AgreementLine;
  readonly upperLimit: AgreementLine;
  /** Share of single differences that the limits are meant to hold. */
  readonly share: number;
  readonly walls: number;
  readonly unit: string;
  readonly decimals: number;
  readonly level: number;
}

const agreementWidth = 480;
const left = 62;
const right = 16;
const height = 250;

/**
 * The difference of two methods against their mean, with the mean difference and the limits of agreement. Points that fan out or
 * lean show where the limits do not hold alike for dry and wet.
 *
 * @example agreementChart(agreement).title.text // ['Meter and core']
 */
export function agreementChart(data: AgreementChartData, options: ChartOptions = {}): ChartSpecification {
  const width = options.width ?? agreementWidth;
  const plotWidth = width - left - right;
  const domain = paddedDomain(data.points.map(({ mean }) => mean));
  const lines = [data.bias, data.lowerLimit, data.upperLimit];
  const differences = paddedDomain([
    0,
    ...data.points.map(({ difference }) => difference),
    ...lines.flatMap(({ lower, upper }) => [lower, upper]),
  ]);
  const unit = shortenMiddle(displayText(data.unit), 140, fontSize.label);
  const title = wrapText(`mean of both (${unit})`, plotWidth, fontSize.label);
  const style = groupStyle(0);
  const x = valueChannel(title, plotWidth, domain);
  const scale = { domain: [differences.from, differences.to], nice: false, zero: false };
  // Turned upright it must fit the plot's height.
  const short = shortenMiddle(displayText(data.unit), 60, fontSize.label);
  const axis = {
    title: `${displayText(data.difference)} (${short})`,
    titleX: 14 - left,
    tickCount: 5,
    grid: true,
    ...thousandsIn(differences),
  };
  const y = { type: 'quantitative', scale, axis } as const;
  const [place, up] = [placeIn(domain, plotWidth), placeIn({ from: differences.to, to: differences.from }, height)];
  const across = { x: 0, x2: plotWidth };
  const points = data.points.map(({ mean, difference }) => ({ mean, difference, x: place(mean), y: up(difference) }));
  const level = ({ estimate }: AgreementLine) => ({ estimate, ...across, y: up(estimate) });
  return frame({
    title: displayText(data.title),
    subtitle: `${data.points.length} pairs of ${data.walls} walls. Line: mean. Dashed: limits for ${percent(data.share)} of differences. Grey: ${percent(data.level)} intervals.`,
    description: describeAgreementChart(data),
    width,
    left,
    right,
    above: 6,
    below: 30 + title.length * 13,
    height,
    layers: [
      axesOnly({ x, y }),
      boxes(
        lines.map(({ lower, upper }) => ({ lower, upper, ...across, y: up(upper), y2: up(lower) })),
        { fill: ink.grid },
      ),
      levels([level(data.lowerLimit), level(data.upperLimit)], { stroke: ink.soft, width: 1, dash: [4, 3] }),
      symbols(points, {
        ...{ shape: style.shape, fill: ink.paper, stroke: style.colour },
        ...{ width: 1.2, size: 26, opacity: 0.8 },
      }),
      levels([level(data.bias)], { width: 2 }),
    ],
  });
}

/**
 * The chart in words: how many pairs, their mean difference and the limits.
 *
 * @example describeAgreementChart(agreement).slice(-75) // '95 % of single differences from −1.8 (−2.4 to −1.2) to +2.2 (+1.6 to +2.8).'
 */
export function describeAgreementChart(data: AgreementChartData): string {
  const text = (value: number) => formatSigned(value, data.decimals);
  const { bias, lowerLimit, upperLimit } = data;
  const limit = ({ estimate, lower, upper }: AgreementLine) => `${text(estimate)} (${text(lower)} to ${text(upper)})`;
  return `${displayText(data.title)}. ${displayText(data.difference)} in ${displayText(data.unit)} against the mean of both, ${data.points.length} pairs of ${data.walls} walls. Mean difference ${limit(bias)}; ${percent(data.share)} of single differences from ${limit(lowerLimit)} to ${limit(upperLimit)}.`;
}

function percent(share: number): string {
  return `${Number((100 * share).toPrecision(6))} %`;
}
