import { execFileSync } from 'node:child_process';
import { once } from 'node:events';
import { rmSync, writeFileSync } from 'node:fs';
import { Worker } from 'node:worker_threads';
import { afterAll, beforeAll, describe, expect, it, onTestFinished, vi } from 'vitest';
import { drawAlone } from '../../src/charts/draw-charts.js';
import type { startDrawingThread } from '../../src/charts/drawing-thread.js';
import { choicesChart, intervalChart } from '../../src/charts/index.js';
import { type DrawingJob, drawShare } from '../../src/charts/shared-drawing.js';
import { compiledModule } from '../helpers/compiled-module.js';
import { isWholeSweep } from '../helpers/sweep.js';

const data = {
  title: 'The difference',
  rows: [{ label: 'Pairs', estimate: -2.5, lower: -3.4, upper: -1.6, isPrimary: true }],
  unit: '% by mass',
  better: 'lower',
  margin: 2,
  level: 0.95,
  decimals: 1,
  walls: { treated: 12, untreated: 12 },
} as const;
const both = [intervalChart(data), intervalChart(data, { width: 340 })];
const charts = [both, [choicesChart(data)], [intervalChart(data)], both];

function jobOf(): DrawingJob {
  return { charts, next: new Int32Array(new SharedArrayBuffer(4)) };
}

/** As built, for threads read no TypeScript. */
let built: ReturnType<typeof compiledModule>;
let compiled: { startDrawingThread: typeof startDrawingThread };
beforeAll(async () => {
  built = compiledModule('src/charts/drawing-thread.ts', 'src/charts/drawing-worker.ts');
  compiled = await import(built.url.href);
});
afterAll(() => built.remove());

describe('drawShare(job)', () => {
  it('draws every chart once, whoever draws it', async () => {
    const job = jobOf();
    const [one, other] = await Promise.all([drawShare(job), drawShare(job)]);
    expect([...one.keys(), ...other.keys()].sort()).toEqual([0, 1, 2, 3]);
    const all = new Map([...one, ...other]);
    expect(charts.map((_, at) => all.get(at))).toEqual(await drawAlone(charts)());
  });
});

describe('drawing-worker', () => {
  it('draws what nobody has begun', async () => {
    const thread = new Worker(new URL('./drawing-worker.js', built.url));
    const job = jobOf();
    job.next[0] = 1;
    thread.postMessage(job);
    const [pictures] = await once(thread, 'message');
    await thread.terminate();
    const [, ...others] = await drawAlone(charts)();
    expect(pictures).toEqual(new Map(others.map((sizes, at) => [at + 1, sizes])));
  });
});

describe('startDrawingThread()', () => {
  it('gives the pictures of one thread alone, also to whoever asks twice', async () => {
    const { draw, end } = compiled.startDrawingThread();
    const alone = await drawAlone(charts)();
    for (const _ of [1, 2]) expect(await draw(charts)()).toEqual(alone);
    expect(await draw([])()).toEqual([]);
    end();
  });

  it('draws with the thread what nobody else comes to', async () => {
    const posted = vi.spyOn(Worker.prototype, 'postMessage');
    onTestFinished(() => posted.mockRestore());
    const { draw, end } = compiled.startDrawingThread();
    const pictures = draw(charts);
    const [job] = posted.mock.calls[0] as [DrawingJob];
    // One beyond the last: the thread has found that none is left.
    await vi.waitFor(() => expect(Atomics.load(job.next, 0)).toBe(charts.length + 1), 10_000);
    expect(await pictures()).toEqual(await drawAlone(charts)());
    end();
  });

  it('complains of a chart as one thread alone would', async () => {
    const { draw, end } = compiled.startDrawingThread();
    const { description: _, ...silent } = intervalChart(data);
    await expect(draw([both, [silent], both])()).rejects.toThrowError(/needs a description/);
    end();
  });

  const inAProcess = (flags: readonly string[]) => {
    const text = `
      import { startDrawingThread } from ${JSON.stringify(built.url.href)};
      const [{ draw }] = [startDrawingThread(), startDrawingThread()];
      const [[picture]] = await draw(${JSON.stringify([[intervalChart(data)]])})();
      process.stdout.write(picture.slice(0, 4));`;
    const words = [...flags, '--input-type=module', '--eval', text];
    return execFileSync(process.execPath, words, { encoding: 'utf8', timeout: 60_000 });
  };

  // Three times the engine and all that is loaded there.
  it.runIf(isWholeSweep)('keeps no process from ending that has not ended it', () => {
    expect(inAProcess([])).toBe('<svg');
  });

  const permission = ['--permission', '--experimental-permission'].find((flag) =>
    process.allowedNodeEnvironmentFlags.has(flag),
  );
  it.runIf(permission && isWholeSweep)('draws alone where no thread may be started', () => {
    expect(inAProcess([permission ?? '', '--allow-fs-read=*', '--no-warnings'])).toBe('<svg');
  });

  it.each([
    ['cannot be found', (worker: URL) => rmSync(worker)],
    ['fails while it loads', (worker: URL) => writeFileSync(worker, 'throw new Error("no engine");')],
    ['fails while it draws', (worker: URL) => writeFileSync(worker, failing)],
  ])('draws alone where the thread %s', async (_, spoil) => {
    spoil(new URL('./drawing-worker.js', built.url));
    const { draw, end } = compiled.startDrawingThread();
    expect(await draw(charts)()).toEqual(await drawAlone(charts)());
    end();
  });
});

/** Takes a chart and ends with an error in place of its picture. */
const failing = `
import { parentPort } from 'node:worker_threads';
parentPort.on('message', ({ next }) => {
  Atomics.add(next, 0, 1);
  throw new Error('no picture');
});`;
