import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { progressBar } from '../../src/command/progress-bar.js';
import { rowsOfLog } from '../../src/command/rows-of-log.js';
import { formOpinion, readTrial } from '../../src/index.js';

describe('progressBar(stream, now)', () => {
  function drawn(isTTY: boolean, times: readonly number[]): readonly string[] {
    const written: string[] = [];
    let time = 0;
    const bar = progressBar({ isTTY, write: (text) => written.push(text) }, () => time);
    for (const [at, next] of times.entries()) {
      time = next;
      bar.show('judging', at / times.length);
    }
    bar.end();
    return written;
  }

  it('draws nothing for work of less than two seconds, and takes nothing away', () => {
    expect(drawn(true, [0, 500, 1999])).toEqual([]);
  });

  it('draws how much is done from then on, not more often than eyes follow, and takes the bar away', () => {
    expect(drawn(true, [0, 2000, 2050, 3000])).toEqual([
      '\r\u001b[K[########----------------------] judging',
      '\r\u001b[K[#######################-------] judging',
      '\r\u001b[K',
    ]);
  });

  it('writes nothing into a file or a pipe', () => {
    expect(drawn(false, [0, 2000, 9000])).toEqual([]);
  });
});

describe('rowsOfLog(folder)', () => {
  const folders: string[] = [];
  const folder = () => {
    const made = mkdtempSync(join(tmpdir(), 'log-'));
    folders.push(made);
    return made;
  };
  afterAll(() => {
    for (const made of folders) rmSync(made, { recursive: true });
  });

  it('comes near to what a log holds that is longer than the sample', async () => {
    const made = folder();
    const rows = Array.from({ length: 20_000 }, (_, at) => `2024-03-01T08:00,S${at % 90},${(at % 1000) / 10}`);
    writeFileSync(join(made, 'sensors.csv'), `time,sensor,value\n${rows.join('\n')}\n`);
    const found = (await rowsOfLog(made)) ?? 0;
    expect(found).toBeGreaterThan(19_000);
    expect(found).toBeLessThan(21_000);
  });

  it('knows of none where there is no log, or an empty one', async () => {
    const made = folder();
    expect(await rowsOfLog(made)).toBeUndefined();
    writeFileSync(join(made, 'sensors.csv'), '');
    expect(await rowsOfLog(made)).toBeUndefined();
  });
});

it('formOpinion tells how far it is, ever further', async () => {
  const shares: number[] = [];
  const trial = await readTrial(join(import.meta.dirname, '..', '..', 'datasets', 'two-walls'));
  formOpinion(trial, { onProgress: (share) => shares.push(share) });
  expect(shares.length).toBeGreaterThan(3);
  expect(shares).toEqual([...shares].sort((one, other) => one - other));
  for (const share of shares) expect(share > 0 && share < 1).toBe(true);
});
