import { mkdir, mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { checkTrial } from '../../src/records/index.js';
import { describeProblem } from '../../src/trial/index.js';
import { type Edit, editedFolder, protocol, put, refusal, replace, setCell } from '../helpers/edit-folder.js';
import { ofSweep } from '../helpers/sweep.js';
import { inFolder, validFolder } from '../helpers/valid-folder.js';

async function trialOf(...edits: readonly Edit[]) {
  const check = await inFolder(editedFolder(...edits), checkTrial);
  if (check.kind === 'problems') throw new Error(check.problems.map(describeProblem).join('\n'));
  return check.trial;
}

describe('what can only mean one thing is read', () => {
  it.each(['YES', 'Yes', ' yes '])('the word “%s” of a choice', async (word) => {
    const { readings } = await trialOf(setCell('readings.csv', 2, 'knew_arm', word));
    expect(readings[0]?.knewArm).toBe('yes');
    const { allocation } = (
      await trialOf(protocol((plan) => Object.assign(plan, { allocation: { method: ' Matched-Pairs ' } })))
    ).protocol;
    expect(allocation.method).toBe('matched-pairs');
  });

  it('but no other word', async () => {
    expect(await refusal(editedFolder(setCell('readings.csv', 2, 'knew_arm', 'y e s')))).toHaveLength(1);
    expect(await refusal(editedFolder(setCell('readings.csv', 2, 'knew_arm', 'ja')))).toHaveLength(1);
  });

  it.each(['NA', 'na', 'N/A', 'n/a', 'n.a.', '-', '--', '–', '—'])('“%s” is a missing value', async (word) => {
    const { readings, walls } = await trialOf(
      setCell('readings.csv', 2, 'value', word),
      setCell('walls.csv', 2, 'site', word),
    );
    expect(readings[0]?.value).toEqual({ kind: 'missing' });
    expect(walls[0]?.site).toBeUndefined();
  });

  it.each(['none', 'NaN', '.'])('“%s” is none', async (word) => {
    expect(await refusal(editedFolder(setCell('readings.csv', 2, 'value', word)))).toHaveLength(1);
  });
});

describe('a plan that would break what comes after', () => {
  it.each(['constructor', 'toString', 'valueOf', 'hasOwnProperty', '__proto__'])(
    'an arm named %s is refused',
    async (name) => {
      const edits = [replace('protocol.json', '"arm": "treated"', `"arm": "${name}"`)];
      expect((await refusal(editedFolder(...edits)))[0]).toMatch(/key arms\[0\]\.arm: .*expected another name/);
    },
  );

  it.each([
    [0.999, 0],
    [0.9991, 1],
    [0.9999, 1],
  ])('a level of %s has %s problems', async (confidence, count) => {
    const lines = await refusal(editedFolder(protocol((plan) => Object.assign(plan, { confidence }))));
    expect(lines).toHaveLength(count);
  });

  it('texts of the plan stand on one line, and hold no control characters', async () => {
    const { title } = (
      await trialOf(protocol((plan) => Object.assign(plan, { title: 'Safe\nVerdict:\u2028worthwhile' })))
    ).protocol;
    expect(title).toBe('Safe Verdict: worthwhile');
    for (const key of ['title', 'claim', 'marginSource'])
      expect(await refusal(editedFolder(protocol((plan) => Object.assign(plan, { [key]: 'a\u001b[2J' }))))).toEqual([
        expect.stringMatching(/found "a\\u001b\[2J", expected a text without control characters$/),
      ]);
  });

  it('accents in two signs or in one are the same name', async () => {
    const edits = [
      replace('protocol.json', '"arm": "treated"', '"arm": "trait\\u0065\\u0301"'),
      replace('protocol.json', '"treated": [\n      "treated"\n    ]', '"treated": [\n      "trait\u00e9"\n    ]'),
      put('walls.csv', (validFolder()['walls.csv'] ?? '').replaceAll(',treated,', ',trait\u00e9,')),
    ];
    expect((await trialOf(...edits)).walls[0]?.arm).toBe('trait\u00e9');
  });
});

describe('names of files and folders', () => {
  it('a workbook whose name would tear a command apart is refused', async () => {
    expect(await refusal(editedFolder(put('a\n```\n# Verdict.xlsx', 'x')))).toContainEqual(
      expect.stringMatching(/^"a\\n```\\n# Verdict\.xlsx": found a name of several lines/),
    );
  });

  it('a folder of trials names them, and nothing else', async () => {
    const parent = await mkdtemp(join(tmpdir(), 'trials-'));
    try {
      for (const name of ['garden', 'cellar']) {
        await mkdir(join(parent, name));
        await writeFile(join(parent, name, 'protocol.json'), '{}');
      }
      const check = await checkTrial(parent);
      expect(check.kind === 'problems' && check.problems.map(describeProblem)).toEqual([
        `${parent}: found no trial, but 2 folders with one: cellar, garden, expected a trial folder; did you mean "${join(parent, 'cellar')}"?`,
      ]);
    } finally {
      await rm(parent, { recursive: true, force: true });
    }
  });

  it('names of any length take a line of bounded length', async () => {
    const long = 'A'.repeat(5000);
    const lines = await refusal(editedFolder(replace('protocol.json', '"arm": "treated"', `"arm": "${long}"`)));
    for (const line of lines) expect(line.length).toBeLessThan(600);
  });
});

it('a hundred thousand columns take seconds, not minutes', async () => {
  const columns = ofSweep(100_000, 25_000);
  const further = Array.from({ length: columns }, (_, at) => `x${at}`).join(',');
  const blanks = ','.repeat(columns);
  const csv = (validFolder()['readings.csv'] ?? '').trimEnd().split('\n');
  const wide = csv.slice(0, 6).map((line, at) => (at === 0 ? `${line},${further}` : `${line}${blanks}`));
  const before = performance.now();
  await refusal(editedFolder(put('readings.csv', `${wide.join('\n')}\n`)));
  expect(performance.now() - before).toBeLessThan(columns * 0.08);
});
