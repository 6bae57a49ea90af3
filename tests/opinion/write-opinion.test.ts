import { spawnSync } from 'node:child_process';
import { mkdir, mkdtemp, readdir, readFile, rm, symlink, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { checkOutputFolder, OutputFolderError, writeOpinion } from '../../src/opinion/write-opinion.js';

let scratch = '';
let count = 0;
beforeAll(async () => {
  scratch = await mkdtemp(join(tmpdir(), 'write-opinion-'));
});
afterAll(() => rm(scratch, { recursive: true, force: true }));

const fresh = () => join(scratch, `out-${count++}`);
/** Three texts of one opinion, long enough to take a moment. */
const opinion = (letter: string) => ({
  html: letter.repeat(200_000),
  markdown: letter.repeat(150_000),
  json: letter.repeat(100_000),
});

async function contentOf(folder: string) {
  const names = (await readdir(folder)).sort();
  const texts = await Promise.all(names.map((name) => readFile(join(folder, name), 'utf8').catch(() => 'folder')));
  return Object.fromEntries(names.map((name, index) => [name, [...new Set(texts[index])].join('')]));
}

const all = (letter: string) => ({ 'opinion.html': letter, 'opinion.json': letter, 'opinion.md': letter });

describe('writeOpinion(rendered, folder)', () => {
  it('leaves the old three as they were where one of them cannot be exchanged', async () => {
    const folder = fresh();
    await writeOpinion(opinion('A'), folder);
    await rm(join(folder, 'opinion.md'));
    await mkdir(join(folder, 'opinion.md'));
    await expect(writeOpinion(opinion('B'), folder)).rejects.toThrow(OutputFolderError);
    expect(await contentOf(folder)).toEqual({ 'opinion.html': 'A', 'opinion.json': 'A', 'opinion.md': 'folder' });
  });

  it('of two writers at a time, and many times over, leaves the three of one', async () => {
    const folder = fresh();
    for (let round = 0; round < 40; round++) {
      await Promise.all(['A', 'B', 'C'].map((letter) => writeOpinion(opinion(letter), folder)));
      const content = await contentOf(folder);
      expect([all('A'), all('B'), all('C')]).toContainEqual(content);
    }
  });

  it('clears away what a killed process left, and follows no link from there', async () => {
    const folder = fresh();
    const gone = spawnSync(process.execPath, ['-e', '']).pid;
    await mkdir(join(folder, '.opinion.partial'), { recursive: true });
    await writeFile(join(folder, '.opinion.partial', 'writer'), `${gone}`);
    await writeFile(join(scratch, 'mine'), 'mine');
    await symlink(join(scratch, 'mine'), join(folder, '.opinion.partial', 'opinion.html'));
    await symlink(join(scratch, 'mine'), join(folder, 'opinion.json'));
    await writeOpinion(opinion('A'), folder);
    expect(await contentOf(folder)).toEqual(all('A'));
    expect(await readFile(join(scratch, 'mine'), 'utf8')).toBe('mine');
  });
});

describe('checkOutputFolder(folder)', () => {
  it('says yes, and makes nothing, where the folder is not there yet', async () => {
    await checkOutputFolder(join(scratch, 'not', 'yet'));
    expect(await readdir(scratch)).not.toContain('not');
  });

  it('says no where a file or folder stands in the way', async () => {
    await writeFile(join(scratch, 'file'), 'mine');
    await mkdir(join(scratch, 'taken', 'opinion.html'), { recursive: true });
    for (const folder of ['file', 'file/below', 'taken'])
      await expect(checkOutputFolder(join(scratch, folder))).rejects.toThrow(OutputFolderError);
  });
});
