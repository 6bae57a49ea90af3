import { spawnSync } from 'node:child_process';
import { readdirSync } from 'node:fs';
import { cp, mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { departuresFromLock } from '../../../src/findings/lock/departures-from-lock.js';
import { checkTrial, describeProblem, lockFolder, readTrial, sealedPlan, sealOfPlan } from '../../../src/index.js';
import { withSealedSeed } from '../../../src/records/lock/sealed-seed.js';
import { bundledTrial, bundledTrials } from '../../helpers/bundled-opinions.js';

const datasets = join(import.meta.dirname, '..', '..', '..', 'datasets');
const sealing = { lockedOn: '2024-02-01', version: '1.0.0' };

let folder = '';
beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), 'fairwall-lock-'));
  await cp(join(datasets, 'paired-garden-walls'), folder, { recursive: true });
});
afterEach(() => rm(folder, { recursive: true, force: true }));

const file = () => join(folder, 'lock.json');
async function problems(): Promise<readonly string[]> {
  const check = await checkTrial(folder);
  return check.kind === 'trial' ? [] : check.problems.map(describeProblem);
}

describe('lockFolder', () => {
  it('seals a plan with its walls before there is any reading, and the trial that is read later holds it whole', async () => {
    await rm(join(folder, 'cores.csv'));
    for (const table of ['readings.csv', 'blinding.csv']) await rm(join(folder, table), { force: true });
    expect((await checkTrial(folder)).kind).toBe('problems');
    const locked = await lockFolder(folder, sealing);
    if (locked.kind === 'problems') throw new Error(locked.problems.map(describeProblem).join('\n'));
    expect(locked.firstReadOn).toBeUndefined();
    await cp(join(datasets, 'paired-garden-walls'), folder, { recursive: true });
    const { lock, protocol, walls } = await readTrial(folder);
    expect(lock).toMatchObject({ ...sealing, sha256: locked.sha256, protocol: withSealedSeed(protocol) });
    expect(lock?.walls.map(({ wall, arm }) => [wall, arm])).toEqual(walls.map(({ wall, arm }) => [wall, arm]));
  });

  it('says from when on the folder holds readings', async () => {
    const locked = await lockFolder(folder, sealing);
    const { cores, readings } = await readTrial(folder);
    const first = [...cores, ...readings].map(({ date }) => date.slice(0, 10)).sort()[0];
    expect(locked).toMatchObject({ kind: 'locked', firstReadOn: first });
  });

  it('never overwrites a seal', async () => {
    await lockFolder(folder, sealing);
    const text = await readFile(file(), 'utf8');
    const again = await lockFolder(folder, { ...sealing, lockedOn: '2025-01-01' });
    expect(again).toMatchObject({
      kind: 'problems',
      problems: [{ file: 'lock.json', found: 'the seal of 2024-02-01' }],
    });
    expect(await readFile(file(), 'utf8')).toBe(text);
  });

  it('refuses a folder without a plan, and one without walls', async () => {
    await rm(join(folder, 'walls.csv'));
    expect(await lockFolder(folder, sealing)).toMatchObject({ kind: 'problems' });
    await rm(join(folder, 'protocol.json'));
    expect(await lockFolder(folder, sealing)).toMatchObject({ kind: 'problems' });
    expect(readdirSync(folder)).not.toContain('lock.json');
  });
});

describe('a folder with lock.json', () => {
  it('is refused when one character of it was changed, wherever', async () => {
    await lockFolder(folder, sealing);
    const text = await readFile(file(), 'utf8');
    for (const [from, to] of [
      [/"margin": \d/, '"margin": 9'],
      ['"2024-02-01"', '"2024-02-02"'],
      [/"sha256": "./, '"sha256": "x'],
      ['"arm": "', '"arm": "d'],
    ] as const) {
      const changed = text.replace(from, to);
      expect(changed).not.toBe(text);
      await writeFile(file(), changed);
      expect(await problems()).toEqual([
        expect.stringMatching(/^lock\.json, line \d+, key sha256: found a seal that does not fit/),
      ]);
    }
    // How the file is laid out is no part of what was sealed.
    await writeFile(file(), JSON.stringify(JSON.parse(text)));
    expect(await problems()).toEqual([]);
  });

  it.each(['lock (1).json', 'lock-2.json', 'Lock.json', 'lock copy.json'])('is refused beside %s', async (name) => {
    await lockFolder(folder, sealing);
    await cp(file(), join(folder, name));
    expect(await problems()).toEqual([expect.stringContaining(`${name}: found a second seal beside lock.json`)]);
    await rm(file());
    expect(await problems()).toEqual([expect.stringContaining('a name that is nearly "lock.json"')]);
  });

  it('is refused where what was sealed is no plan, though the seal fits', async () => {
    const { protocol, walls } = await readTrial(folder);
    const { text } = sealedPlan({ protocol, walls }, sealing);
    const forge = async (change: (lock: Record<string, unknown>) => object) => {
      const { sha256: _, ...content } = JSON.parse(text);
      const changed = change(content);
      await writeFile(file(), JSON.stringify({ ...changed, sha256: sealOfPlan(changed) }));
      return problems();
    };
    expect(await forge((lock) => lock)).toEqual([]);
    expect(await forge((lock) => ({ ...lock, plan: { ...(lock.plan as object), margin: -1 } }))).toEqual([
      expect.stringContaining('key plan.margin: found -1'),
    ]);
    expect(await forge((lock) => ({ ...lock, walls: [] }))).toEqual([
      expect.stringContaining('key walls: found an empty list'),
    ]);
    expect(
      await forge((lock) => ({
        ...lock,
        walls: [
          { wall: 'a', arm: 'b' },
          { wall: 'a', arm: 'b' },
        ],
      })),
    ).toEqual([expect.stringContaining('key walls[1]')]);
    expect(await forge((lock) => ({ ...lock, lockedOn: 'soon' }))).toEqual([expect.stringContaining('key lockedOn')]);
    expect(await forge((lock) => ({ ...lock, format: 'other/1' }))).toEqual([expect.stringContaining('key format')]);
    expect(await forge((lock) => ({ ...lock, more: 1 }))).toEqual([expect.stringContaining('the unknown key "more"')]);
    await writeFile(file(), '[]');
    expect(await problems()).toEqual([expect.stringContaining('lock.json, line 1')]);
    await writeFile(file(), 'no JSON');
    expect(await problems()).toEqual([expect.stringContaining('lock.json, line 1')]);
  });

  it('has another fingerprint, and lists the file among those of it', async () => {
    const before = await readTrial(folder);
    await lockFolder(folder, sealing);
    const after = await readTrial(folder);
    expect(after.source.fingerprint).not.toBe(before.source.fingerprint);
    expect(after.source.files.map(({ file }) => file)).toContain('lock.json');
  });

  it('bears the seal that jq and sha256sum find', async ({ skip }) => {
    await lockFolder(folder, sealing);
    const { status, stdout } = spawnSync('sh', ['-c', "jq -cjS 'del(.sha256)' lock.json | sha256sum"], {
      cwd: folder,
      encoding: 'utf8',
    });
    if (status !== 0 || spawnSync('jq', ['--version']).status !== 0) skip();
    expect(stdout.split(' ')[0]).toBe((await readTrial(folder)).lock?.sha256);
  });
});

describe('the seed of an allocation', () => {
  it('stands in a seal as the digest that sha256sum gives, and nowhere else', async () => {
    await lockFolder(folder, sealing);
    const text = await readFile(file(), 'utf8');
    expect(text).not.toContain('20240201');
    // printf 20240201 | sha256sum
    expect(JSON.parse(text).plan.allocation.seedSha256).toBe(
      '7bff2c4f96766d6c08bf8dd69ef9adcbb072c6a39e3cf24bfd7cfa253fcda4a2',
    );
  });

  it('is no departure as sealed, of an older seal that holds it, and where it becomes known later; another one is', async () => {
    const trial = await readTrial(folder);
    const { allocation } = trial.protocol;
    const { seed, ...withoutSeed } = allocation;
    expect(seed).toBe(20240201);
    const keysAgainst = async (sealed: typeof allocation) => {
      const { sha256: _, ...content } = JSON.parse(sealedPlan(trial, sealing).text);
      const older = { ...content, plan: { ...content.plan, allocation: sealed } };
      await writeFile(file(), JSON.stringify({ ...older, sha256: sealOfPlan(older) }));
      return departuresFromLock(await readTrial(folder)).map(({ key }) => key);
    };
    const digest = withSealedSeed(trial.protocol).allocation;
    expect(await keysAgainst(digest)).toEqual([]);
    expect(await keysAgainst(allocation)).toEqual([]);
    expect(await keysAgainst(withoutSeed)).toEqual([]);
    expect(await keysAgainst({ ...allocation, seed: 20240202 })).toEqual(['allocation']);
    expect(await keysAgainst({ ...withoutSeed, seedSha256: 'a'.repeat(64) })).toEqual(['allocation']);
    await expect(keysAgainst({ ...withoutSeed, seedSha256: 'a'.repeat(63) })).rejects.toThrow(/seedSha256/);
  });

  it('has no digest in a plan, which states it or nothing', async () => {
    const plan = JSON.parse(await readFile(join(folder, 'protocol.json'), 'utf8'));
    const allocation = { ...plan.allocation, seedSha256: 'a'.repeat(64) };
    await writeFile(join(folder, 'protocol.json'), JSON.stringify({ ...plan, allocation }));
    expect(await problems()).toEqual([expect.stringContaining('seedSha256')]);
  });
});

describe('sealOfPlan', () => {
  it('is the SHA-256 of the JSON text with keys in order, as sha256sum gives it', () => {
    // printf '{"a":[2,{"c":1,"d":"é"}],"b":1}' | sha256sum
    expect(sealOfPlan({ b: 1, a: [2, { d: 'é', c: 1 }] })).toBe(
      '1de35599ea8f2a4cc6717f33fd2b7f8d33832800ff969390b5f75c7a9e7b5b96',
    );
    expect(sealOfPlan({ b: 1, a: [2] })).not.toBe(sealOfPlan({ b: 1, a: [3] }));
  });
});

describe('the plan of every data set', () => {
  it.each(bundledTrials)('%s is read from its seal as it is read from its folder', async (name) => {
    const trial = await bundledTrial(name);
    await writeFile(file(), sealedPlan(trial, sealing).text);
    const locked = await readTrial(folder);
    expect(locked.lock?.protocol).toEqual(withSealedSeed(trial.protocol));
    expect(locked.lock?.walls.length).toBe(trial.walls.length);
  });
});
