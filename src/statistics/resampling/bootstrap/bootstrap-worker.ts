import { workerData } from 'node:worker_threads';
import type { WorkerJob } from './parallel-replicates.js';
import { drawChunks } from './replicates.js';

// Runs in a worker thread: draws its chunks into the memory that it shares with the others.
const { pools, seed, all, first, step }: WorkerJob = workerData;
drawChunks(pools, seed, all, first, step);
