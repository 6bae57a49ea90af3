import type { ChartSpecification } from './chart-specification.js';
import { renderSvgs } from './render-svg.js';

/** The sizes of one chart; its pictures have the same order. */
export type SizesOfChart = readonly ChartSpecification[];

/** Asks for charts, perhaps of a thread that starts on them at once; what it returns takes part in the drawing and gives the pictures. */
export type DrawCharts = (charts: readonly SizesOfChart[]) => () => Promise<readonly (readonly string[])[]>;

/** Draws charts in the thread of whoever asks, one after the other. */
export const drawAlone: DrawCharts = (charts) => async () => {
  const pictures: (readonly string[])[] = [];
  for (const sizes of charts) pictures.push(await renderSvgs(sizes));
  return pictures;
};
