import { workerData } from 'node:worker_threads';
import type { IntervalsJob } from './simulated-chances.js';
import { fillIntervals } from './trial-intervals.js';

// Runs in a worker thread: simulates its trials into the memory that it shares with the others.
const { planned, share, limits }: IntervalsJob = workerData;
fillIntervals(planned, share, limits);
