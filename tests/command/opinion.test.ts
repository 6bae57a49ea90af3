import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import papaparse from 'papaparse';
import { afterAll, describe, expect, it } from 'vitest';
import { changedCopy, replaceIn } from '../helpers/changed-copy.js';
import { fairwall } from '../helpers/command-in-process.js';

const datasets = join(import.meta.dirname, '..', '..', 'datasets');
const scratch = mkdtempSync(join(tmpdir(), 'fairwall-opinion-'));
const outOf = (name: string) => join(scratch, name);

afterAll(() => rmSync(scratch, { recursive: true, force: true }));

const opinionOn = (folder: string, out: string, ...flags: readonly string[]) =>
  fairwall('opinion', folder, '--out', outOf(out), ...flags);

describe('the command opinion', () => {
  it('writes every table as CSV with --tables, and no cell of them starts a formula', async () => {
    const trial = changedCopy('two-walls', scratch, (folder) =>
      replaceIn(folder, 'walls.csv', /brick in lime mortar/g, '=1+1'),
    );
    const { status, stdout, stderr } = await opinionOn(trial, 't', '--tables');
    expect([status, stderr]).toEqual([0, '']);
    expect(stdout).toContain('.json and tables/');
    const files = readdirSync(join(scratch, 't', 'tables'));
    expect(files).toEqual(expect.arrayContaining(['walls.csv', 'cores.csv', 'wall_changes.csv', 'estimates.csv']));
    const cells = files.flatMap((file) => {
      const text = readFileSync(join(scratch, 't', 'tables', file), 'utf8');
      return papaparse.parse<string[]>(text, { skipEmptyLines: true }).data.flat();
    });
    const isNumber = (cell: string) => cell !== '' && Number.isFinite(Number(cell));
    expect(cells.filter((cell) => /^[=+\-@\t\r\n]/.test(cell) && !isNumber(cell))).toEqual([]);
    expect(cells).toContain("'=1+1");
  });

  it('names each problem on a line of standard error, ends with 2 and writes nothing', async () => {
    const folder = changedCopy('two-walls', scratch, (copy) =>
      replaceIn(copy, 'walls.csv', /^W01,[^,]*/m, 'W01,contrl'),
    );
    const { status, stdout, stderr } = await opinionOn(folder, 'd');
    expect(status).toBe(2);
    expect(stdout).toBe('');
    expect(stderr).toMatch(/^walls\.csv, row 2, column arm: found "contrl", expected .+\n/);
    expect(existsSync(join(scratch, 'd'))).toBe(false);
  });

  it('prints at most 20 problems and then a count', async () => {
    const keys = Array.from({ length: 30 }, (_, k) => `"budget ${k}": 1, `).join('');
    const folder = changedCopy('two-walls', scratch, (copy) =>
      replaceIn(copy, 'protocol.json', /"title"/, () => `${keys}"title"`),
    );
    const lines = (await opinionOn(folder, 'e')).stderr.trimEnd().split('\n');
    expect(lines).toHaveLength(21);
    expect(lines.slice(0, 20).every((line) => line.startsWith('protocol.json, line '))).toBe(true);
    expect(lines[20]).toMatch(/^and \d+ more problems; --all prints every row$/);
    expect((await opinionOn(folder, 'e', '--all')).stderr.trimEnd().split('\n').length).toBe(30);
  });

  it('says on standard error what was handed in and not used, and in the report', async () => {
    const folder = changedCopy('two-walls', scratch, (copy) => {
      replaceIn(copy, 'walls.csv', /$/gm, ',Owner of the wall');
      replaceIn(copy, 'walls.csv', /,Owner of the wall$(?![\s\S])/, '');
    });
    const { status, stderr } = await opinionOn(folder, 'u');
    expect(status).toBe(0);
    expect(stderr).toBe('Not used:\n  walls.csv: column "Owner of the wall", 2 cells\n');
    const [text, json] = ['opinion.md', 'opinion.json'].map((name) => readFileSync(join(scratch, 'u', name), 'utf8'));
    expect(text).toContain('Owner of the wall');
    expect(JSON.parse(json ?? '').notUsed).toEqual([
      { kind: 'column', file: 'walls.csv', column: 'Owner of the wall', cells: 2, isListed: false },
    ]);
  });

  it('names the same fault in many rows once, and with --all in every row', async () => {
    const folder = changedCopy('two-walls', scratch, (copy) => replaceIn(copy, 'cores.csv', /,W01,/g, ',W99,'));
    const { stderr, status } = await opinionOn(folder, 'e');
    expect(status).toBe(2);
    expect(stderr).toMatch(/^cores\.csv, column wall: found "W99" in \d+ rows \(first: row 2\), expected /);
    expect(stderr.trimEnd().split('\n')).toHaveLength(1);
    const each = (await opinionOn(folder, 'e', '--all')).stderr.trimEnd().split('\n');
    expect(each.length).toBe(Number(/in (\d+) rows/.exec(stderr)?.[1]));
    expect(existsSync(join(scratch, 'e'))).toBe(false);
  });

  it('refuses to write where a file stands in the place of the folder, and leaves the file alone', async () => {
    writeFileSync(join(scratch, 'g'), 'mine');
    const { status, stderr } = await opinionOn(join(datasets, 'two-walls'), 'g');
    expect(status).toBe(2);
    expect(stderr).toContain(`fairwall: cannot write to ${outOf('g')}: `);
    expect(readFileSync(join(scratch, 'g'), 'utf8')).toBe('mine');
  });

  it('lets nobody forge a verdict or move the cursor of the terminal', async () => {
    const forged = changedCopy('two-walls', scratch, (copy) =>
      replaceIn(copy, 'protocol.json', /"title": "/, '$&\\u202eSafe\\nVerdict:   worthwhile\\n'),
    );
    const { stdout } = await opinionOn(forged, 'i');
    expect(stdout.split('\n').filter((line) => line.startsWith('Verdict:'))).toHaveLength(1);
    expect(stdout).toMatch(/^‹U\+202E›/);
    const moving = changedCopy('two-walls', scratch, (copy) =>
      replaceIn(copy, 'protocol.json', /"title": "/, '$&\\u001b[2J'),
    );
    expect((await opinionOn(moving, 'j')).stderr).toMatch(/text without control characters/);
  });
});
