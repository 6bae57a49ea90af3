import { parentPort } from 'node:worker_threads';
import { renderSvgs } from './render-svg.js';
import { type DrawingJob, drawShare } from './shared-drawing.js';

// Runs in a worker thread: loads the engine while the trial is judged, and then draws charts until none is left.
const loaded = renderSvgs([]);
parentPort?.on('message', async (job: DrawingJob) => {
  await loaded;
  parentPort?.postMessage(await drawShare(job));
});
