import { parentPort, workerData } from 'node:worker_threads';
import type { WorkerJob } from './parallel-replicates.js';
import { replicateChunk } from './replicates.js';

// Runs in a worker thread: draws its chunks, and hands them back without copying.
const { pools, seed, chunks }: WorkerJob = workerData;
const drawn = chunks.map(({ chunk, size }) => ({ chunk, replicates: replicateChunk(pools, seed, chunk, size) }));
const buffers = drawn.flatMap(({ replicates }) => [replicates.deviations.buffer, replicates.standardErrors.buffer]);
parentPort?.postMessage(drawn, buffers as ArrayBuffer[]);
