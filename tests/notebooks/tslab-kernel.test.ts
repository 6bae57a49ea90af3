import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { isWholeSweep } from '../helpers/sweep.js';
import { cellOutputs } from './cell-outputs.js';
import { type Kernel, startKernel } from './tslab-kernel.js';

// A kernel of its own is started for notebooks in the whole sweep alone, and by Jupyter.
describe.runIf(isWholeSweep)('startKernel', () => {
  const folder = mkdtempSync(join(tmpdir(), 'empty-'));
  let kernel: Kernel;

  beforeAll(async () => {
    kernel = await startKernel(folder);
  }, 120_000);

  afterAll(async () => {
    await kernel?.stop();
    rmSync(folder, { recursive: true });
  });

  it('gives what a cell prints and shows, in order', async () => {
    const run = await kernel.execute(
      "import { display } from 'tslab'; console.log(1); display.html('<b>2</b>'); 1 + 2",
    );
    expect(run.status).toBe('ok');
    expect(cellOutputs(run)).toEqual([
      { output_type: 'stream', name: 'stdout', text: ['1\n'] },
      { output_type: 'display_data', data: { 'text/html': ['<b>2</b>'] }, metadata: {} },
      { output_type: 'stream', name: 'stdout', text: ['3\n'] },
    ]);
  });

  it('says so when a cell has a type error or throws', async () => {
    const mistyped = await kernel.execute("const walls: number = 'twelve'");
    expect(mistyped.status).toBe('error');
    expect(JSON.stringify(cellOutputs(mistyped))).toContain("Type 'string' is not assignable to type 'number'");
    // The kernel refuses what it gets within 200 ms of an error, so that "run all" stops there.
    await new Promise((resolve) => setTimeout(resolve, 400));
    expect((await kernel.execute("throw new Error('wet')")).status).toBe('error');
  });

  it('lives on where files and folders come and go beside it', { timeout: 120_000 }, async () => {
    const cell = "import { one } from './one'; import { never } from './never'; console.log(one)";
    writeFileSync(join(folder, 'one.ts'), 'export const one = 1;');
    await new Promise((resolve) => setTimeout(resolve, 400));
    await kernel.execute(cell);
    for (let round = 0; round < 20; round++) {
      mkdirSync(join(folder, 'node_modules', `round-${round}`), { recursive: true });
      writeFileSync(join(folder, 'one.ts'), `export const one = ${round};`);
      writeFileSync(join(folder, `never-${round}.ts`), 'export const never = 1;');
      writeFileSync(join(folder, 'never.ts'), 'export const never = 1;');
      rmSync(join(folder, 'never.ts'));
      rmSync(join(folder, 'node_modules'), { recursive: true });
      await new Promise((resolve) => setTimeout(resolve, 60));
    }
    await new Promise((resolve) => setTimeout(resolve, 600));
    const run = await kernel.execute('1 + 1');
    expect([run.status, cellOutputs(run)]).toEqual(['ok', [{ output_type: 'stream', name: 'stdout', text: ['2\n'] }]]);
  });

  it('rejects when the folder does not exist', async () => {
    await expect(startKernel(join(tmpdir(), 'no-such-folder-of-notebooks'))).rejects.toThrow('ENOENT');
  });
});
