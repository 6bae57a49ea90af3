import { displayText } from '../words/display-text.js';
import { formatSigned } from '../words/format-number.js';
import type { ChartOptions, ChartSpecification } from './chart-specification.js';
import { boxes, levels } from './marks.js';
import { type PairsPlot, pairMarks, pairsPlot, unitBelow } from './pairs-plot.js';
import { shortenMiddle } from './text-layout.js';
import { fontSize, ink } from './theme.js';

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

/**
 * The difference of two methods against their mean, with the mean difference and the limits of agreement. Points that fan out or
 * lean show where the limits do not hold alike for dry and wet.
 *
 * @example agreementChart(agreement).title.text // ['Meter and core']
 */
export function agreementChart(data: AgreementChartData, options: ChartOptions = {}): ChartSpecification {
  const lines = [data.bias, data.lowerLimit, data.upperLimit];
  // Turned upright it must fit the plot's height.
  const short = shortenMiddle(displayText(data.unit), 60, fontSize.label);
  const plot: PairsPlot = {
    title: data.title,
    subtitle: `${data.points.length} pairs of ${data.walls} walls. Line: mean. Dashed: limits for ${percent(data.share)} of differences. Grey: ${percent(data.level)} intervals.`,
    description: describeAgreementChart(data),
    across: { title: `mean of both (${unitBelow(data.unit)})`, values: data.points.map(({ mean }) => mean) },
    upward: {
      title: `${displayText(data.difference)} (${short})`,
      values: [
        0,
        ...data.points.map(({ difference }) => difference),
        ...lines.flatMap(({ lower, upper }) => [lower, upper]),
      ],
    },
    layers: ({ across, up, plotWidth }) => {
      const whole = { x: 0, x2: plotWidth };
      const level = ({ estimate }: AgreementLine) => ({ estimate, ...whole, y: up(estimate) });
      return [
        boxes(
          lines.map(({ lower, upper }) => ({ lower, upper, ...whole, y: up(upper), y2: up(lower) })),
          { fill: ink.grid },
        ),
        levels([level(data.lowerLimit), level(data.upperLimit)], { stroke: ink.soft, width: 1, dash: [4, 3] }),
        pairMarks(
          data.points.map(({ mean, difference }) => ({ mean, difference, x: across(mean), y: up(difference) })),
        ),
        levels([level(data.bias)], { width: 2 }),
      ];
    },
  };
  return pairsPlot(plot, options);
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
