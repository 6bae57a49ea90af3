import { once } from 'node:events';
import { Worker } from 'node:worker_threads';
import { intervalsWorker } from '../intervals-worker-address.js';
import type { IntervalsJob } from './trial-intervals.js';

/**
 * Threads that have nothing to do. The engine warms up each by itself, which takes as long as a thousand trials: they stay for the next
 * question, and do not keep the process from ending.
 */
const idle: Worker[] = [];

/**
 * Does a job in so many threads, which take its trials one by one.
 *
 * @throws by rejecting, what the first thread that failed threw, once all are at rest
 */
export async function inThreads(job: IntervalsJob, threads: number): Promise<void> {
  const crew = Array.from({ length: threads }, () => idle.pop() ?? started());
  const ends = await Promise.allSettled(crew.map((thread) => worked(thread, job)));
  const failure = ends.find((end) => end.status === 'rejected');
  if (failure !== undefined) throw failure.reason;
}

function started(): Worker {
  return new Worker(intervalsWorker, {
    // Trials leave much behind and keep nothing: room for it, but no more than the processors' caches hold.
    resourceLimits: { maxYoungGenerationSizeMb: 24 },
    // What the process was told of its own script, as that it stands in the command, is wrong for this one.
    execArgv: [],
  });
}

async function worked(thread: Worker, job: IntervalsJob): Promise<void> {
  thread.ref();
  const answered = once(thread, 'message');
  thread.postMessage(job);
  // A thread ends with what it throws, and is not used again.
  await answered;
  thread.unref();
  idle.push(thread);
}
