import { spawnSync } from 'node:child_process';
import { once } from 'node:events';
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Worker } from 'node:worker_threads';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { intervalChart, renderSvg } from '../src/charts/index.js';
import { buildOnce } from './helpers/build-once.js';
import { fairwall as inProcess } from './helpers/command-in-process.js';

const root = join(import.meta.dirname, '..');
const scratch = mkdtempSync(join(tmpdir(), 'fairwall-cli-'));

beforeAll(buildOnce, 120_000);
afterAll(() => rmSync(scratch, { recursive: true, force: true }));

function fairwall(...words: readonly string[]) {
  return spawnSync(process.execPath, [join(root, 'dist', 'cli.js'), ...words], { cwd: scratch, encoding: 'utf8' });
}

describe('the packed thread for charts', () => {
  it('draws what the library draws', async () => {
    const walls = { treated: 12, untreated: 12 };
    const rows = [{ label: 'Pairs', estimate: -2.5, lower: -3.4, upper: -1.6 }];
    const chart = intervalChart({
      ...{ title: 'The difference', rows, unit: '% by mass', better: 'lower', level: 0.95, walls, decimals: 1 },
    });
    const thread = new Worker(join(root, 'dist', 'charts', 'drawing-worker.js'));
    thread.postMessage({ charts: [[chart]], next: new Int32Array(new SharedArrayBuffer(4)) });
    const [pictures] = await once(thread, 'message');
    await thread.terminate();
    expect(pictures).toEqual(new Map([[0, [await renderSvg(chart)]]]));
  });
});

/** What the process does; what the command answers is asked in tests/command/. */
describe('the packed command', () => {
  // A trial with an answer is given to it for the README, to the letter.
  it('writes the three files, prints the verdict and ends with 0, and the library gives the same bytes in one thread', async () => {
    const trial = join(root, 'datasets/two-walls');
    const packed = fairwall('opinion', trial, '--out', 'b');
    expect([packed.status, packed.stderr]).toEqual([0, '']);
    expect(packed.stdout).toContain('Verdict:   not-answerable');
    expect(packed.stdout).toContain(join('b', 'opinion.html'));
    const library = await inProcess('opinion', trial, '--out', join(scratch, 'c'));
    expect(library.status).toBe(0);
    const files = readdirSync(join(scratch, 'b')).sort();
    expect(files).toEqual(['opinion.html', 'opinion.json', 'opinion.md']);
    for (const file of files)
      expect(readFileSync(join(scratch, 'b', file), 'utf8')).toBe(readFileSync(join(scratch, 'c', file), 'utf8'));
    expect(JSON.parse(readFileSync(join(scratch, 'b', 'opinion.json'), 'utf8')).primary.interval).toBeNull();
  });

  it('ends with 2 and without a stack trace where it refuses', () => {
    const { status, stdout, stderr } = fairwall('check', 'nowhere');
    expect([status, stdout]).toEqual([2, '']);
    expect(stderr).toBe('nowhere: found nothing there, expected a trial folder that can be read\n');
  });

  it('finds its version and its help from where it was packed', async () => {
    for (const word of ['--version', '--help']) {
      const { status, stdout } = fairwall(word);
      expect([status, stdout]).toEqual([0, (await inProcess(word)).stdout]);
    }
  });

  it.skipIf(process.platform === 'win32')('ends with 0 where nobody reads its words, or they find no room', () => {
    const cli = `${JSON.stringify(process.execPath)} ${JSON.stringify(join(root, 'dist/cli.js'))}`;
    const run = (words: string, rest: string) =>
      spawnSync('bash', ['-c', `set -o pipefail; ${cli} ${words} ${rest}`], { cwd: scratch, encoding: 'utf8' });
    const closed = run(`opinion ${JSON.stringify(join(root, 'datasets/two-walls'))} --out k`, '| true');
    expect([closed.status, closed.stderr]).toEqual([0, '']);
    expect(readdirSync(join(scratch, 'k'))).toHaveLength(3);
    if (!existsSync('/dev/full')) return;
    const full = run('help', '> /dev/full');
    expect([full.status, full.stderr]).toEqual([0, 'fairwall: its words cannot be printed (ENOSPC)\n']);
  });

  it('loads nothing but Node for its help', () => {
    const importedBy = (file: string) =>
      [...readFileSync(join(root, file), 'utf8').matchAll(/^import .* from '([^']+)'/gm)].map(([, from]) => from);
    expect(importedBy('src/cli.ts')).toEqual(['./command/run-command.js']);
    expect(importedBy('src/command/run-command.ts')).toEqual(['node:util']);
  });
});
