import { displayText } from '../words/display-text.js';
import { formatSigned } from '../words/format-number.js';
import { levelInWords } from '../words/movement.js';
import { type ChartOptions, type ChartSpecification, defaultChartWidth } from './chart-specification.js';
import { directions, onBetterSide, roomOfLines, signedMargin, zeroAndMargin } from './difference-lines.js';
import { type ChartPart, type Domain, frame, paddedDomain, placeIn, valueAxis, valueChannel } from './frame.js';
import { boxes, levels, type PlacedMarks, type PlacedText, texts } from './marks.js';
import { estimatedWidth, shortenMiddle, wrapText } from './text-layout.js';
import { fontSize, groupStyle, ink } from './theme.js';

export interface ConfidenceCurveChartData {
  readonly title: string;
  /** From the lowest difference up; `pValue` is two-sided. */
  readonly points: readonly { readonly value: number; readonly pValue: number }[];
  readonly estimate: number;
  /** The narrowest first; `level` for instance 0.95. */
  readonly intervals: readonly { readonly level: number; readonly lower: number; readonly upper: number }[];
  /** The difference's unit. */
  readonly unit: string;
  /** Which sign is good for the treated walls. */
  readonly better: 'lower' | 'higher';
  /** Positive; absent when none was stated. */
  readonly margin?: number;
  readonly walls: { readonly treated: number; readonly untreated: number };
  readonly decimals: number;
}

const left = 44;
const right = 14;
const curveHeight = 190;

/**
 * How well every difference fits: the two-sided p-value against each of them as a curve, with some intervals as bars under it, against
 * lines at zero and at the smallest worthwhile difference.
 *
 * @example confidenceCurveChart(curveShown).title.text // ['Every difference, and how well it fits']
 */
export function confidenceCurveChart(data: ConfidenceCurveChartData, options: ChartOptions = {}): ChartSpecification {
  const width = options.width ?? defaultChartWidth;
  const plotWidth = width - left - right;
  const above = roomOfLines(data);
  const height = above + curveHeight;
  const domain = domainOf(data);
  const unit = shortenMiddle(displayText(data.unit), 180, fontSize.label);
  const axisTitle = wrapText(`Difference, treated less untreated walls (${unit})`, plotWidth, fontSize.label);
  return frame({
    title: displayText(data.title),
    subtitle: `Curve: two-sided p-value of every difference that the truth could be. Bars: ${levelsOf(data)} intervals. Walls: ${data.walls.treated} treated, ${data.walls.untreated} untreated.`,
    description: describeConfidenceCurveChart(data),
    ...{ width, left, right, height, above: 4, below: 48 + axisTitle.length * 13 },
    layers: [
      ...zeroAndMargin(data, domain, height, plotWidth),
      ...curveLayers(data, domain, { above, height, plotWidth, axisTitle }),
      ...intervalWords(data, domain, { above, plotWidth }),
      ...directions(data, height + 32, plotWidth),
    ],
  });
}

/**
 * The chart in words, with its intervals.
 *
 * @example describeConfidenceCurveChart(curveShown).slice(-32) // '95 % interval from −3.4 to −1.6.'
 */
export function describeConfidenceCurveChart(data: ConfidenceCurveChartData): string {
  const { margin, estimate, intervals, walls, better } = data;
  const number = (value: number) => formatSigned(value, data.decimals);
  const bars = intervals.map(
    ({ level, lower, upper }) => `${levelInWords(level)} interval from ${number(lower)} to ${number(upper)}`,
  );
  return [
    `${displayText(data.title)}. Two-sided p-value against every difference, treated less untreated walls, in ${displayText(data.unit)},`,
    `with lines at zero and ${margin === undefined ? 'no margin' : `at the margin of ${signedMargin(data)}`}; ${better} is better for the treated walls.`,
    `Walls: ${walls.treated} treated, ${walls.untreated} untreated. The curve is highest at ${number(estimate)}; ${bars.join('; ')}.`,
  ].join(' ');
}

function levelsOf({ intervals }: ConfidenceCurveChartData): string {
  const levels = intervals.map(({ level }) => levelInWords(level));
  return levels.length < 2 ? levels.join('') : `${levels.slice(0, -1).join(', ')} and ${levels.at(-1)}`;
}

/** The whole curve with zero and the margin. */
function domainOf(data: ConfidenceCurveChartData): Domain {
  const margin = data.margin === undefined ? [] : [onBetterSide(data, data.margin)];
  return paddedDomain([...data.points.map(({ value }) => value), 0, ...margin]);
}

interface Sizes {
  readonly above: number;
  readonly height: number;
  readonly plotWidth: number;
  readonly axisTitle: readonly string[];
}

function curveLayers(
  { points, intervals }: ConfidenceCurveChartData,
  domain: Domain,
  { above, height, plotWidth, axisTitle }: Sizes,
): ChartPart[] {
  const { colour } = groupStyle(0);
  const axis = { ...valueAxis(axisTitle, plotWidth, domain), titlePadding: 22 };
  const x = { ...valueChannel(axisTitle, plotWidth, domain), field: 'value', axis };
  const y = {
    field: 'pValue',
    type: 'quantitative',
    scale: { domain: [0, 1], nice: false, range: [height, above] },
    axis: { title: 'p-value', titleX: 12 - left, values: [0, 0.2, 0.5, 1], format: '~g', grid: true },
  };
  const [place, up] = [placeIn(domain, plotWidth), placeIn({ from: 1, to: 0 }, curveHeight)];
  const bars = intervals.map(({ level, lower, upper }) => ({
    ...{ lower, upper, pValue: 1 - level },
    ...{ x: place(lower), x2: place(upper), y: above + up(1 - level) },
  }));
  return [
    levels(bars, { stroke: ink.text, width: 3 }),
    {
      // Copies: the renderer marks the rows that it is given.
      data: { values: points.map(({ value, pValue }) => ({ value, pValue })) },
      mark: { type: 'line', stroke: colour, strokeWidth: 2 },
      encoding: { x, y },
    },
  ];
}

/**
 * Each interval's numbers over its end, on the side that has more room; where that is too little for one of them, all of them in the upper
 * corner, for the curve is narrow there. On paper of their own, so that lines stop short of them.
 */
function intervalWords(
  data: ConfidenceCurveChartData,
  domain: Domain,
  { above, plotWidth }: Pick<Sizes, 'above' | 'plotWidth'>,
): PlacedMarks[] {
  const place = placeIn(domain, plotWidth);
  const number = (value: number) => formatSigned(value, data.decimals);
  const isRight = place(data.estimate) < plotWidth / 2;
  const beside = data.intervals.map(({ level, lower, upper }): PlacedText & { readonly width: number } => {
    const text = `${levelInWords(level)}: ${number(lower)} to ${number(upper)}`;
    return {
      text,
      x: isRight ? place(upper) + 6 : place(lower) - 6,
      y: above + curveHeight * level - 8,
      width: estimatedWidth(text, fontSize.label),
    };
  });
  const fits = beside.every(({ x, width }) => (isRight ? x + width <= plotWidth : x - width >= 0));
  const widest = Math.max(...beside.map(({ width }) => width));
  const cornerX = isRight ? plotWidth - widest - 4 : widest + 4;
  const words = fits ? beside : beside.map((word, at) => ({ ...word, x: cornerX, y: above + 12 + at * 14 }));
  return [
    boxes(
      words.map(({ x, y, width }) => ({
        x: isRight ? x - 2 : x - width - 2,
        x2: isRight ? x + width + 2 : x + 2,
        y: y - 7,
        y2: y + 7,
      })),
      { fill: ink.paper },
    ),
    texts(
      words.map(({ text, x, y }) => ({ text, x, y })),
      { align: isRight ? 'left' : 'right' },
    ),
  ];
}
