/** A Vega-Lite specification: plain JSON that notebooks, reports and other people's pages can render. */
export type ChartSpecification = { readonly [key: string]: unknown };

export interface ChartOptions {
  /** Full width of the picture in pixels; defaults to 640, the text width of an A4 page. */
  readonly width?: number;
}

export const defaultChartWidth = 640;
