import { existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { packageVersion } from '../../src/opinion/version.js';
import { changedCopy, replaceIn } from '../helpers/changed-copy.js';
import { fairwall } from '../helpers/command-in-process.js';

const datasets = join(import.meta.dirname, '..', '..', 'datasets');
const scratch = mkdtempSync(join(tmpdir(), 'fairwall-command-'));
const refused = join(scratch, 'refused');

afterAll(() => rmSync(scratch, { recursive: true, force: true }));

describe('the command refuses with 2, in words, and writes nothing', () => {
  it.each([
    ['a folder that is not there', ['opinion', 'nowhere', '--out', refused], /nowhere/],
    ['no --out', ['opinion', 'nowhere'], /--out FOLDER/],
    ['an unknown command', ['verdict', 'nowhere', '--out', refused], /Usage/],
    ['an unknown option', ['opinion', 'nowhere', '--ot', refused], /--ot/],
    ['nothing at all', [], /Usage[\s\S]*fairwall new/],
    ['a misspelt command', ['opinon', 'nowhere', '--out', refused], /did you mean “opinion”/],
    ['an empty --out', ['opinion', join(datasets, 'two-walls'), '--out', ''], /--out names no folder/],
    [
      'a folder of trials',
      ['opinion', datasets, '--out', refused],
      /datasets: found no trial, but \d+ folders with one: .*two-walls.*did you mean/,
    ],
    ['a flag of another command', ['opinion', 'x', '--out', refused, '--walls', '8'], /opinion has no --walls/],
    ['one wall', ['new', refused, '--walls', '1'], /--walls needs a whole number of walls from 2/],
    ['heights that are none', ['new', refused, '--heights', 'low'], /--heights needs/],
    ['a meter that is none', ['new', refused, '--meter', 'radar'], /--meter needs/],
    ['no folder', ['new'], /expected: new FOLDER/],
    ['a folder to check that is not there', ['check', 'nowhere', '--out', refused], /^nowhere: found nothing there/],
    ['a lock of nothing', ['lock'], /expected: lock TRIAL-FOLDER/],
    ['help on what is no command', ['help', 'chek'], /did you mean “check”/],
  ])('%s', async (_, words, expected) => {
    const { status, stderr, stdout } = await fairwall(...words);
    expect([status, stdout]).toEqual([2, '']);
    expect(stderr).toMatch(expected);
    expect(existsSync(refused)).toBe(false);
  });

  it('a folder for the opinion where none can be, before the trial is read', async () => {
    writeFileSync(join(scratch, 'h'), 'mine');
    const below = join(scratch, 'h', 'below');
    const { status, stderr } = await fairwall('opinion', 'nowhere', '--out', below);
    expect(status).toBe(2);
    expect(stderr.startsWith(`fairwall: cannot write to ${below}: `)).toBe(true);
  });

  it('and names a folder as it was given', async () => {
    expect((await fairwall('opinion', 'not/here', '--out', refused)).stderr).toBe(
      'not/here: found nothing there, expected a trial folder that can be read\n',
    );
  });
});

describe('the command explains itself', () => {
  it('says its version', async () => {
    expect(await fairwall('--version')).toEqual({ status: 0, stdout: `${packageVersion()}\n`, stderr: '' });
  });

  it.each(['new', 'lock', 'check', 'opinion', 'verify', 'plan', 'help'])(
    'help %s and %s --help say how it is used',
    async (verb) => {
      const said = await fairwall('help', verb);
      expect(said).toMatchObject({ status: 0, stderr: '' });
      expect(said.stdout).toMatch(new RegExp(`^fairwall ${verb} `));
      expect(await fairwall(verb, '--help')).toEqual(said);
    },
  );

  it('help without a verb says what --help says', async () => {
    const said = await fairwall('--help');
    expect(said).toMatchObject({ status: 0, stderr: '' });
    expect(said.stdout).toContain('fairwall opinion TRIAL-FOLDER --out FOLDER');
    expect(await fairwall('help')).toEqual(said);
  });
});

describe('the command lock', () => {
  it('seals once, prints the line to publish, and the opinion names what departs', async () => {
    const folder = changedCopy('two-walls', scratch, () => undefined);
    const { status, stdout, stderr } = await fairwall('lock', folder);
    expect(status).toBe(0);
    const { lockedOn, sha256 } = JSON.parse(readFileSync(join(folder, 'lock.json'), 'utf8'));
    expect(stdout).toContain(`${lockedOn}  SHA-256 ${sha256}`);
    // The bundled walls have been read.
    expect(stderr).toContain('sealed after');
    const again = await fairwall('lock', folder);
    expect([again.status, again.stdout]).toEqual([2, '']);
    expect(again.stderr).toMatch(/^lock\.json: found the seal of /);
    replaceIn(folder, 'protocol.json', /"margin": [\d.]+/, '"margin": 1.5');
    expect((await fairwall('opinion', folder, '--out', join(scratch, 'locked'))).status).toBe(0);
    const { lock, threats } = JSON.parse(readFileSync(join(scratch, 'locked', 'opinion.json'), 'utf8'));
    expect(lock.departures).toMatchObject([{ part: 'margin', now: 1.5 }]);
    const found: readonly string[] = threats.flatMap((threat: { code: string; finding: string }) =>
      threat.finding === 'found' ? [threat.code] : [],
    );
    expect(found).toEqual(expect.arrayContaining(['locked-late', 'margin-departed']));
  });

  it('ends with 2 where there is no plan', async () => {
    mkdirSync(join(scratch, 'without-plan'));
    const { status, stderr } = await fairwall('lock', join(scratch, 'without-plan'));
    expect(status).toBe(2);
    expect(stderr).toContain('protocol.json: found no such file');
  });
});
