import { parentPort } from 'node:worker_threads';
import { fillIntervals, type IntervalsJob } from './trial-intervals.js';

// Runs in a worker thread: simulates its trials into the memory that it shares with the others, and says when none is left.
parentPort?.on('message', (job: IntervalsJob) => {
  fillIntervals(job);
  parentPort?.postMessage('done');
});
