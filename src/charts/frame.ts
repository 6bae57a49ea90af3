import type { ChartSpecification } from './chart-specification.js';
import { layersOf, type PlacedMarks } from './marks.js';
import { estimatedWidth, wrapText } from './text-layout.js';
import { fontSize, ink, themeConfig } from './theme.js';

/** A layer with scales of its own, or marks at places that the layout has worked out. */
export type ChartPart = ChartSpecification | PlacedMarks;

export interface Frame {
  readonly title: string;
  /** What the marks mean, the unit and the counts, in sentences. */
  readonly subtitle: string;
  readonly description: string;
  /** Full width of the picture. */
  readonly width: number;
  readonly left: number;
  readonly right: number;
  /** Room between the title block and the plot. */
  readonly above: number;
  /** Room below the plot, for axis labels and titles. */
  readonly below: number;
  /** Height of the plot itself. */
  readonly height: number;
  /** In the order in which they are drawn; words lie above all else. */
  readonly layers: readonly ChartPart[];
}

/**
 * The specification around a chart's layers. Every size is set here (`autosize` is `none`), so that the picture does not
 * depend on how wide a machine thinks its letters are.
 */
export function frame(parts: Frame): ChartSpecification {
  const titleLines = wrapText(parts.title, parts.width, fontSize.title);
  // A per cent sign on a line of its own is no number.
  const subtitleLines = wrapText(parts.subtitle.replace(/(\d) %/g, '$1\u00a0%'), parts.width, fontSize.label);
  const titleHeight = titleLines.length * 17 + subtitleLines.length * 15 + 8;
  return {
    $schema: 'https://vega.github.io/schema/vega-lite/v6.json',
    description: parts.description,
    title: {
      text: titleLines,
      subtitle: subtitleLines,
      anchor: 'start',
      frame: 'group',
      dx: 0 - parts.left,
      offset: parts.above,
      subtitlePadding: 3,
    },
    background: ink.paper,
    autosize: { type: 'none' },
    width: parts.width - parts.left - parts.right,
    height: parts.height,
    padding: { left: parts.left, right: parts.right, top: titleHeight + parts.above, bottom: parts.below },
    config: themeConfig,
    layer: layersOf(parts.layers),
  };
}

export interface Domain {
  readonly from: number;
  readonly to: number;
}

/** Where a value lies in a plot that is so long, in pixels. */
export function placeIn({ from, to }: Domain, length: number): (value: number) => number {
  return (value) => ((value - from) / (to - from)) * length;
}

/** The values' range with a little air at both ends; a range of nothing becomes one of some width. */
export function paddedDomain(values: readonly number[], air = 0.05): Domain {
  const from = Math.min(...values);
  const to = Math.max(...values);
  const span = to - from || Math.abs(to) || 1;
  return { from: from - air * span, to: to + air * span };
}

/** How an axis and its scale look; the field is the layer's. */
export interface AxisChannel extends ChartSpecification {
  readonly type: 'quantitative' | 'temporal';
  readonly scale: ChartSpecification & { readonly domain: readonly number[] };
}

/** Draws nothing: it carries the axes, over fields of their own, so that nobody takes its row for a value that was read. */
export function axesOnly(channels: { readonly x?: AxisChannel; readonly y?: AxisChannel }): ChartSpecification {
  const all = Object.entries(channels);
  return {
    data: { values: [Object.fromEntries(all.map(([key, { scale }]) => [`axis_${key}`, scale.domain[0]]))] },
    mark: { type: 'point', opacity: 0 },
    encoding: Object.fromEntries(all.map(([key, channel]) => [key, { ...channel, field: `axis_${key}` }])),
  };
}

/** Values from left to right, on the axis below the plot. */
export function valueChannel(title: readonly string[], plotWidth: number, domain: Domain): AxisChannel {
  const scale = { domain: [domain.from, domain.to], nice: false, zero: false };
  return { type: 'quantitative', scale, axis: valueAxis(title, plotWidth, domain) };
}

/** The axis below a plot. Labels within a few pixels of its ends turn inward instead of running out of the picture. */
export function valueAxis(title: readonly string[], plotWidth: number, domain: Domain): ChartSpecification {
  return { title, grid: false, tickCount: tickCount(plotWidth, domain), labelFlush: 12, ...thousandsIn(domain) };
}

/** Of an axis whose labels reach a thousand: as in the words beside the chart, set apart by a narrow space, and from ten thousand on. */
export function thousandsIn({ from, to }: Domain): { readonly labelExpr?: string } {
  if (Math.max(Math.abs(from), Math.abs(to)) < 1000) return {};
  const belowTenThousand = '/^[^0-9]?[0-9],[0-9]{3}([.][0-9]+)?$/';
  return {
    labelExpr: `replace(test(${belowTenThousand}, datum.label) ? replace(datum.label, ',', '') : datum.label, /,/g, '\u202f')`,
  };
}

/**
 * Long labels (thousands, many decimals) need more room each. A narrow plot asks for four and lets labels stand closer: of two
 * that are asked for, a round step may leave a single one, which is no scale.
 */
function tickCount(plotWidth: number, domain: Domain): number {
  const labels = [domain.from, domain.to].map((value) => estimatedWidth(value.toPrecision(3), fontSize.label));
  const [loose, close] = [44, 12].map((air) => Math.floor(plotWidth / (Math.max(...labels) + air))) as [number, number];
  return Math.max(2, loose, Math.min(4, close));
}
