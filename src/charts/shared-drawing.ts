import type { SizesOfChart } from './draw-charts.js';
import { renderSvgs } from './render-svg.js';

/** Charts that several threads draw. */
export interface DrawingJob {
  readonly charts: readonly SizesOfChart[];
  /** In memory that they share: the chart that nobody has begun. */
  readonly next: Int32Array<SharedArrayBuffer>;
}

/** The pictures of those charts that this thread came to, by their place in the job. */
export async function drawShare({ charts, next }: DrawingJob): Promise<ReadonlyMap<number, readonly string[]>> {
  const pictures = new Map<number, readonly string[]>();
  for (;;) {
    const at = Atomics.add(next, 0, 1);
    const sizes = charts[at];
    if (sizes === undefined) return pictures;
    pictures.set(at, await renderSvgs(sizes));
  }
}
