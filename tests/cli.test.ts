import { spawnSync } from 'node:child_process';
import { cpSync, existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { buildOnce } from './helpers/build-once.js';

const root = join(import.meta.dirname, '..');
const scratch = mkdtempSync(join(tmpdir(), 'fairwall-cli-'));

beforeAll(buildOnce, 120_000);
afterAll(() => rmSync(scratch, { recursive: true, force: true }));

function fairwall(...words: readonly string[]) {
  return spawnSync(process.execPath, [join(root, 'dist', 'cli.js'), ...words], { cwd: scratch, encoding: 'utf8' });
}

function copyOf(dataset: string, change: (folder: string) => void): string {
  const folder = mkdtempSync(join(scratch, `${dataset}-`));
  cpSync(join(root, 'datasets', dataset), folder, { recursive: true });
  change(folder);
  return folder;
}

function replaceIn(folder: string, file: string, from: string | RegExp, to: string): void {
  const text = readFileSync(join(folder, file), 'utf8');
  const changed = text.replace(from, to);
  expect(changed).not.toBe(text);
  writeFileSync(join(folder, file), changed);
}

describe('fairwall opinion', () => {
  it('writes the three files, prints the verdict and ends with 0', () => {
    const { status, stdout, stderr } = fairwall('opinion', join(root, 'datasets/paired-garden-walls'), '--out', 'a');
    expect(stderr).toBe('');
    expect(status).toBe(0);
    expect(stdout).toContain('Verdict:   worthwhile');
    expect(stdout).toContain(join('a', 'opinion.html'));
    expect(readdirSync(join(scratch, 'a')).sort()).toEqual(['opinion.html', 'opinion.json', 'opinion.md']);
    const { format, verdict, primary } = JSON.parse(readFileSync(join(scratch, 'a', 'opinion.json'), 'utf8'));
    expect({ format, code: verdict.code, id: primary.id, method: primary.method }).toEqual({
      format: 'fairwall-opinion/1',
      code: 'worthwhile',
      id: 'wall-change',
      method: 'paired-blocks',
    });
  });

  it('ends with 0 too where the trial cannot say, and gives the same bytes again', () => {
    const trial = join(root, 'datasets/two-walls');
    for (const out of ['b', 'c']) expect(fairwall('opinion', trial, '--out', out).status).toBe(0);
    for (const file of ['opinion.html', 'opinion.md', 'opinion.json'])
      expect(readFileSync(join(scratch, 'b', file), 'utf8')).toBe(readFileSync(join(scratch, 'c', file), 'utf8'));
    expect(JSON.parse(readFileSync(join(scratch, 'b', 'opinion.json'), 'utf8')).primary.interval).toBeNull();
  });

  it('names each problem on a line of standard error, ends with 2 and writes nothing', () => {
    const folder = copyOf('two-walls', (copy) => replaceIn(copy, 'walls.csv', /^W01,[^,]*/m, 'W01,contrl'));
    const { status, stdout, stderr } = fairwall('opinion', folder, '--out', 'd');
    expect(status).toBe(2);
    expect(stdout).toBe('');
    expect(stderr).toMatch(/^walls\.csv, row 2, column arm: found "contrl", expected .+\n/);
    expect(existsSync(join(scratch, 'd'))).toBe(false);
  });

  it('prints at most 20 problems and then a count', () => {
    const folder = copyOf('two-walls', (copy) => replaceIn(copy, 'cores.csv', /,W01,/g, ',W99,'));
    const lines = fairwall('opinion', folder, '--out', 'e').stderr.trimEnd().split('\n');
    expect(lines).toHaveLength(21);
    expect(lines.slice(0, 20).every((line) => line.startsWith('cores.csv, row '))).toBe(true);
    expect(lines[20]).toMatch(/^and \d+ more problems$/);
  });

  it.each([
    ['a folder that is not there', ['opinion', 'nowhere', '--out', 'f'], /nowhere/],
    ['no --out', ['opinion', 'nowhere'], /--out FOLDER/],
    ['an unknown command', ['verdict', 'nowhere', '--out', 'f'], /Usage/],
    ['an unknown option', ['opinion', 'nowhere', '--ot', 'f'], /--ot/],
    ['nothing at all', [], /Usage/],
  ])('refuses %s with 2, without a stack trace', (_, words, expected) => {
    const { status, stderr } = fairwall(...words);
    expect(status).toBe(2);
    expect(stderr).toMatch(expected);
    expect(stderr).not.toMatch(/\n\s+at /);
    expect(existsSync(join(scratch, 'f'))).toBe(false);
  });

  it('refuses to write where a file stands in the place of the folder, and leaves the file alone', () => {
    writeFileSync(join(scratch, 'g'), 'mine');
    const { status, stderr } = fairwall('opinion', join(root, 'datasets/two-walls'), '--out', 'g');
    expect(status).toBe(2);
    expect(stderr).toMatch(/^fairwall: cannot write to g: /);
    expect(readFileSync(join(scratch, 'g'), 'utf8')).toBe('mine');
  });

  it('explains itself', () => {
    const { status, stdout } = fairwall('--help');
    expect(status).toBe(0);
    expect(stdout).toContain('fairwall opinion TRIAL-FOLDER --out FOLDER');
  });
});
