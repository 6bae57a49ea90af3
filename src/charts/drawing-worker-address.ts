/** The worker as it was packed. This file lies as deep as the packed command does, so that the address is right from both. */
export const drawingWorker = new URL('../charts/drawing-worker.js', import.meta.url);
