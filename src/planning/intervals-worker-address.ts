/**
 * The worker as the compiler wrote it. This file lies as deep as the packed command does, so that the address is right from both.
 */
export const intervalsWorker = new URL('../planning/simulated-chances/intervals-worker.js', import.meta.url);
