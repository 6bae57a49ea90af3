import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it, onTestFinished, vi } from 'vitest';
import { linkPackage } from '../../notebooks/link-package.mjs';
import { readNotebook, tidyNotebook, toText } from '../../notebooks/notebook-file.mjs';
import { buildOnce } from '../helpers/build-once.js';
import { isWholeSweep } from '../helpers/sweep.js';
import { cellOutputs } from './cell-outputs.js';
import { type NotebookRunner, startWithoutSockets } from './kernel-without-sockets.js';
import { startKernel } from './tslab-kernel.js';

interface Cell {
  readonly cell_type: 'code' | 'markdown';
  readonly source: readonly string[];
  readonly outputs?: readonly { readonly output_type: string; readonly name?: string }[];
}

const folder = join(import.meta.dirname, '..', '..', 'notebooks');
const notebooks = readdirSync(folder).filter((file) => file.endsWith('.ipynb'));
const cellsOf = (name: string): Cell[] => readNotebook(join(folder, name)).cells;
const codeOf = (name: string): Cell[] => cellsOf(name).filter((cell) => cell.cell_type === 'code');

// A kernel starts in two seconds, more on a busy machine.
vi.setConfig({ testTimeout: 120_000, hookTimeout: 300_000 });

let runner: NotebookRunner;

beforeAll(async () => {
  await buildOnce();
  linkPackage();
  runner = await startWithoutSockets(folder);
});

afterAll(() => runner?.stop());

it('finds notebooks', () => {
  expect(notebooks.length).toBeGreaterThan(0);
});

describe.each(notebooks)('%s', (name) => {
  it('gives what is stored, with the compiler and the executor of the real kernel', async () => {
    for (const [at, cell] of codeOf(name).entries()) {
      const code = toText(cell.source);
      const run = await runner.execute(code, at === 0);
      expect({ status: run.status, outputs: cellOutputs(run) }, code).toEqual({ status: 'ok', outputs: cell.outputs });
    }
  });

  // That a kernel answers over its sockets is tested beside this; here it would read the same declarations twelve times.
  it.runIf(isWholeSweep)('gives what is stored, in a real kernel of its own', async () => {
    const kernel = await startKernel(folder);
    onTestFinished(() => kernel.stop());
    for (const cell of codeOf(name)) {
      const run = await kernel.execute(toText(cell.source));
      expect({ status: run.status, outputs: cellOutputs(run) }, toText(cell.source)).toEqual({
        status: 'ok',
        outputs: cell.outputs,
      });
    }
  });

  it('stores no error and no warning', () => {
    const complaints = codeOf(name)
      .flatMap((cell) => cell.outputs ?? [])
      .filter((output) => output.name === 'stderr');
    expect(complaints).toEqual([]);
  });

  it('is stored in its tidy form', () => {
    const tidy = `${JSON.stringify(tidyNotebook(readNotebook(join(folder, name))), null, 1)}\n`;
    expect(readFileSync(join(folder, name), 'utf8')).toBe(tidy);
  });

  it('imports in its first code cell only, from the package and the kernel', () => {
    const [first, ...others] = codeOf(name).map((cell) => toText(cell.source));
    const sources = [...(first ?? '').matchAll(/ from '([^']+)'/g)].map((match) => match[1]);
    expect(
      sources.filter((source) => !/^(fairwall(\/statistics|\/tables)?|jstat|tslab|node:.*)$/.test(source ?? '')),
    ).toEqual([]);
    expect(sources).toContain('fairwall');
    expect(others.filter((code) => /^import |\brequire\(|\bimport\(/m.test(code))).toEqual([]);
  });

  it('keeps each code cell within 15 lines of 110 characters, between sentences', () => {
    const cells = cellsOf(name);
    const lone = cells.filter((cell, index) => {
      if (cell.cell_type !== 'code') return false;
      return cells[index - 1]?.cell_type !== 'markdown' || cells[index + 1]?.cell_type !== 'markdown';
    });
    expect(lone.map((cell) => toText(cell.source))).toEqual([]);
    expect(codeOf(name).filter((cell) => cell.source.length > 15)).toEqual([]);
    const lines = codeOf(name).flatMap((cell) => cell.source);
    expect(lines.filter((line) => line.trimEnd().length > 110)).toEqual([]);
  });
});
