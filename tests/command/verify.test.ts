import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { besideOf } from '../../src/command/beside-of.js';
import { formOpinion } from '../../src/opinion/index.js';
import { readTrial } from '../../src/records/index.js';
import { renderOpinion, writeOpinion } from '../../src/report/index.js';
import { fairwall } from '../helpers/command-in-process.js';

const folder = mkdtempSync(join(tmpdir(), 'fairwall-verify-'));
const [trial, opinion, changed] = [join(folder, 'trial'), join(folder, 'opinion'), join(folder, 'changed')];
const patience = { timeout: 120_000 };

beforeAll(async () => {
  cpSync(join(import.meta.dirname, '../../datasets/two-walls'), trial, { recursive: true });
  writeFileSync(join(trial, 'commission.json'), '{ "format": "fairwall-commission/1", "author": "A surveyor" }');
  const read = await readTrial(trial);
  const formed = formOpinion(read);
  await writeOpinion(await renderOpinion(formed, besideOf(read, formed)), opinion);
}, 120_000);

afterAll(() => rmSync(folder, { recursive: true, force: true }));
afterEach(() => rmSync(changed, { recursive: true, force: true }));

/** The status, and what was said. */
async function verified(opinionFolder: string, trialFolder: string): Promise<{ status: number; said: string }> {
  const { status, stdout, stderr } = await fairwall('verify', opinionFolder, trialFolder);
  return { status, said: stdout + stderr };
}

function withFile(of: string, name: string, change: (text: string) => string): string {
  cpSync(of, changed, { recursive: true });
  const path = join(changed, name);
  const before = readFileSync(path, 'utf8');
  const after = change(before);
  expect(after).not.toBe(before);
  writeFileSync(path, after);
  return changed;
}

function tenthDigitChanged(text: string): string {
  return text.replace(
    /("estimate": -1\.7\d{8})(\d)/,
    (_, kept: string, digit: string) => `${kept}${(Number(digit) + 1) % 10}`,
  );
}

describe('verifyOpinion(opinion folder, trial folder)', patience, () => {
  it('is 0 where all of it comes out again', async () => {
    const { status, said } = await verified(opinion, trial);
    expect(said).toContain('Verified');
    expect(said).not.toContain('NOT AS STATED');
    expect(status).toBe(0);
  });

  it('is 1 for one changed digit, and names it with the digits in common', async () => {
    const other = withFile(opinion, 'opinion.json', tenthDigitChanged);
    const { status, said } = await verified(other, trial);
    expect(status).toBe(1);
    expect(said).toMatch(/primary\.estimate: .* \(10 digits in common\)/);
  });

  it.each([
    [
      'a digit of the page',
      'opinion.html',
      (text: string) => text.replace('2.45 percentage', '2.46 percentage'),
      'opinion.html: *NOT',
    ],
    [
      'another version',
      'opinion.json',
      (text: string) => text.replace(/"version": "[^"]*"/, '"version": "9.9.9"'),
      'Version: *NOT',
    ],
    ['another seed', 'opinion.json', (text: string) => text.replace(/"seed": \d+/, '"seed": 1'), 'Seed: *NOT'],
  ])('is 1 for %s', async (_, file, change, says) => {
    const { status, said } = await verified(withFile(opinion, file, change), trial);
    expect(status).toBe(1);
    expect(said).toMatch(new RegExp(says));
  });

  it('is 1 for a trial folder with a new file that counts, and for another commission', async () => {
    const other = withFile(trial, 'commission.json', (text) => text.replace('A surveyor', 'Another'));
    const commissioned = await verified(opinion, other);
    expect(commissioned.status).toBe(1);
    expect(commissioned.said).toMatch(/Commission: *NOT/);
    expect(commissioned.said).not.toMatch(/Trial folder: *NOT/);
    writeFileSync(
      join(other, 'blinding.csv'),
      'date,person,role,wall,believed_arm\n2024-10-01,R1,reader,W01,unknown\n',
    );
    const { status, said } = await verified(opinion, other);
    expect(said).toMatch(/Trial folder: *NOT/);
    expect(status).toBe(1);
  });

  it('is 2 where there is no opinion, or no trial', async () => {
    expect((await verified(trial, trial)).status).toBe(2);
    expect((await verified(opinion, opinion)).status).toBe(2);
  });
});
