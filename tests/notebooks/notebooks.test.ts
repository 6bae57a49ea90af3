import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { isDeepStrictEqual } from 'node:util';
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

/** No cell prints this. */
const endOf = (at: number) => `end of cell ${at}, and no other`;

/** What a cell declares at its top, and perhaps a word or two beside it. */
function namesIn(code: string): readonly string[] {
  const declared = code.matchAll(/^(?:const|let|var|class|(?:async )?function) (\{[^}]*\}|\[[^\]]*\]|[\w$]+)/gm);
  return [...declared].flatMap(([, names = '']) => names.match(/[\w$]+/g) ?? []);
}

/** The cells in as few goes as can be: a name that is declared anew begins another. */
function goesOf(cells: readonly Cell[]): readonly (readonly Cell[])[] {
  const goes: Cell[][] = [[]];
  const known = new Set<string>();
  for (const cell of cells) {
    const names = namesIn(toText(cell.source));
    if (names.some((name) => known.has(name))) {
      goes.push([]);
      known.clear();
    }
    for (const name of names) known.add(name);
    goes.at(-1)?.push(cell);
  }
  return goes;
}

/** Whether the cells as one give what is stored under each. */
async function giveInOneGo(cells: readonly Cell[], isFirst: boolean): Promise<boolean> {
  const code = cells.map(({ source }, at) => `${toText(source)}\nconsole.log(${JSON.stringify(endOf(at))});\n`);
  const run = await runner.execute(code.join(''), isFirst);
  expect(run.status, JSON.stringify(cellOutputs(run))).toBe('ok');
  const ends = cells.map((_, at) => run.messages.findIndex(({ content }) => content.text === `${endOf(at)}\n`));
  return cells.every(({ outputs }, at) => {
    const messages = run.messages.slice(at === 0 ? 0 : (ends[at - 1] ?? 0) + 1, ends[at]);
    return isDeepStrictEqual(cellOutputs({ ...run, messages }), outputs);
  });
}

/**
 * Whether a notebook gives what is stored, many cells as one: the compiler looks at every declaration of the package for each thing
 * that it compiles.
 */
async function givesWhatIsStored(name: string): Promise<boolean> {
  for (const [at, cells] of goesOf(codeOf(name)).entries()) if (!(await giveInOneGo(cells, at === 0))) return false;
  return true;
}

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
    if (!isWholeSweep && (await givesWhatIsStored(name))) return;
    // Cell by cell, which names the one that is wrong.
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
