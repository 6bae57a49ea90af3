import { availableParallelism } from 'node:os';
import { Worker } from 'node:worker_threads';
import { type DrawCharts, drawAlone } from './draw-charts.js';
import { drawingWorker } from './drawing-worker-address.js';
import { renderSvgs } from './render-svg.js';
import { type DrawingJob, drawShare } from './shared-drawing.js';

type Pictures = ReadonlyMap<number, readonly string[]>;

/** A second thread for charts. It is started long before they are asked for, as it has to load the engine first. */
export interface DrawingThread {
  readonly draw: DrawCharts;
  readonly end: () => void;
}

/**
 * Starts the thread, where there is a processor for it. What it fails to draw this thread draws, with the same pictures or the same
 * complaint.
 */
export function startDrawingThread(): DrawingThread {
  const thread = availableParallelism() < 2 ? undefined : startedUnlessDenied();
  if (thread === undefined) return { draw: drawAlone, end: () => undefined };
  const failed = new Promise<Pictures>((resolve) => thread.once('error', () => resolve(new Map())));
  // It keeps no process from ending that does not wait for it.
  thread.unref();
  const draw: DrawCharts = (charts) => {
    const job: DrawingJob = { charts, next: new Int32Array(new SharedArrayBuffer(Int32Array.BYTES_PER_ELEMENT)) };
    const answered = new Promise<Pictures>((resolve) => thread.once('message', resolve));
    thread.postMessage(job);
    return async () => {
      const own = await drawShare(job);
      thread.ref();
      const others = await Promise.race([answered, failed]);
      thread.unref();
      const pictures: (readonly string[])[] = [];
      for (const [at, sizes] of charts.entries())
        pictures.push(own.get(at) ?? others.get(at) ?? (await renderSvgs(sizes)));
      return pictures;
    };
  };
  return { draw, end: () => void thread.terminate() };
}

/** Nothing where a machine has no thread left, or its owner allows none. */
function startedUnlessDenied(): Worker | undefined {
  try {
    // What the process was told of its own script, as that it stands in the command, is wrong for this one.
    return new Worker(drawingWorker, { execArgv: [] });
  } catch {
    return undefined;
  }
}
