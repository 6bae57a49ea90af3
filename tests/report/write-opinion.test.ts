import { type ChildProcess, spawn, spawnSync } from 'node:child_process';
import { once } from 'node:events';
import { mkdir, mkdtemp, readdir, readFile, rm, symlink, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { checkOutputFolder, OutputFolderError, writeOpinion } from '../../src/report/write-opinion.js';
import { randomStream, uniform } from '../../src/statistics/index.js';
import { compiledModule } from '../helpers/compiled-module.js';
import { ofSweep } from '../helpers/sweep.js';

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
    for (let round = 0; round < ofSweep(40, 8); round++) {
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

  it('of three at a time that find what a killed process left, writes the three of one', async () => {
    const gone = `${spawnSync(process.execPath, ['-e', '']).pid}`;
    for (let round = 0; round < ofSweep(20, 4); round++) {
      const folder = fresh();
      await mkdir(join(folder, '.opinion.partial'), { recursive: true });
      await writeFile(join(folder, '.opinion.partial', 'writer'), gone);
      await Promise.all(['A', 'B', 'C'].map((letter) => writeOpinion(opinion(letter), folder)));
      expect([all('A'), all('B'), all('C')]).toContainEqual(await contentOf(folder));
    }
  });

  it('leaves a folder alone in which a living process goes on writing for longer than anybody waits', async () => {
    const folder = fresh();
    await mkdir(join(folder, '.opinion.partial'), { recursive: true });
    await writeFile(join(folder, '.opinion.partial', 'writer'), `${process.pid}`);
    const written = writeOpinion(opinion('A'), folder, { patience_ms: 200 });
    await expect(written).rejects.toThrow(OutputFolderError);
    expect((await readdir(folder)).sort()).toEqual(['.opinion.partial']);
    expect(await readFile(join(folder, '.opinion.partial', 'writer'), 'utf8')).toBe(`${process.pid}`);
  });
});

describe('writeOpinion(rendered, folder, { tables })', () => {
  const tables = { 'walls.csv': 'wall\nW01\n', 'estimates.csv': 'id\nwall-change\n' };

  it('writes the tables beside the three files, and the next opinion without tables takes them away', async () => {
    const folder = fresh();
    await writeOpinion(opinion('A'), folder, { tables });
    expect((await readdir(join(folder, 'tables'))).sort()).toEqual(['estimates.csv', 'walls.csv']);
    expect(await readFile(join(folder, 'tables', 'walls.csv'), 'utf8')).toBe(tables['walls.csv']);
    await writeOpinion(opinion('B'), folder, { tables: { 'walls.csv': 'wall\n' } });
    expect(await readdir(join(folder, 'tables'))).toEqual(['walls.csv']);
    await writeOpinion(opinion('C'), folder);
    expect(await contentOf(folder)).toEqual(all('C'));
  });

  it('replaces no folder of somebody else’s: nothing is written with tables, and all but them without', async () => {
    const folder = fresh();
    await mkdir(join(folder, 'tables'), { recursive: true });
    await writeFile(join(folder, 'tables', 'notes.txt'), 'mine');
    await expect(checkOutputFolder(folder, true)).rejects.toThrow(OutputFolderError);
    await expect(writeOpinion(opinion('A'), folder, { tables })).rejects.toThrow(OutputFolderError);
    expect(await readdir(folder)).toEqual(['tables']);
    await writeOpinion(opinion('A'), folder);
    expect(await readFile(join(folder, 'tables', 'notes.txt'), 'utf8')).toBe('mine');
    expect((await readdir(folder)).length).toBe(4);
  });

  it('leaves old tables and files as they were where one of them cannot be exchanged', async () => {
    const folder = fresh();
    await writeOpinion(opinion('A'), folder, { tables });
    await rm(join(folder, 'opinion.md'));
    await mkdir(join(folder, 'opinion.md'));
    await expect(writeOpinion(opinion('B'), folder, { tables: {} })).rejects.toThrow(OutputFolderError);
    expect((await readdir(join(folder, 'tables'))).length).toBe(2);
  });
});

describe('writeOpinion(rendered, folder) in processes of their own', { timeout: 60_000 }, () => {
  const compiled = compiledModule('src/report/write-opinion.ts');
  const children: ChildProcess[] = [];
  afterAll(() => {
    for (const child of children) child.kill('SIGKILL');
    compiled.remove();
  });

  /** Writes opinions of its own letters, one after the other, until it is told to stop; says when it has written the first. */
  const script = `
    import { writeOpinion } from ${JSON.stringify(compiled.url.href)};
    const [folder, letters] = process.argv.slice(1);
    let isOver = false;
    process.on('message', () => { isOver = true; });
    for (let count = 0; !isOver; count++) {
      const letter = letters[count % letters.length];
      await writeOpinion({ html: letter.repeat(200_000), markdown: letter.repeat(150_000), json: letter.repeat(100_000) }, folder);
      if (count === 0) process.send('written');
    }
    process.disconnect();`;

  async function writer(folder: string, letters: string): Promise<ChildProcess> {
    const child = spawn(process.execPath, ['--input-type=module', '-e', script, folder, letters], {
      stdio: ['ignore', 'ignore', 'inherit', 'ipc'],
    });
    children.push(child);
    await once(child, 'message');
    return child;
  }

  async function opinionIn(folder: string): Promise<Record<string, string>> {
    const { 'opinion.html': html, 'opinion.md': markdown, 'opinion.json': json } = await contentOf(folder);
    return Object.fromEntries(
      Object.entries({ html, markdown, json }).flatMap(([name, text]) => (text === undefined ? [] : [[name, text]])),
    );
  }

  // The other writer stands still meanwhile, so that what the killed one left is seen.
  it('of two, one that is killed at any moment leaves no files of two opinions, and the other goes on', async () => {
    const random = randomStream(20260501);
    for (let round = 0; round < ofSweep(10, 1); round++) {
      const folder = fresh();
      const [killed, other] = await Promise.all([writer(folder, 'AB'), writer(folder, 'CD')]);
      await pause(40 * uniform(random));
      other.kill('SIGSTOP');
      await pause(20 * uniform(random));
      killed.kill('SIGKILL');
      await once(killed, 'exit');
      const found = Object.values(await opinionIn(folder));
      expect(new Set(found).size).toBeLessThanOrEqual(1);
      for (const letter of found) expect(letter).toMatch(/^[ABCD]$/);

      other.kill('SIGCONT');
      await pause(10);
      other.send('stop');
      await once(other, 'exit');
      const last = await contentOf(folder);
      expect([all('C'), all('D')]).toContainEqual(last);
      await writeOpinion(opinion('E'), folder);
      expect(await contentOf(folder)).toEqual(all('E'));
    }
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
