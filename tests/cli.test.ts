import { spawnSync } from 'node:child_process';
import { once } from 'node:events';
import { existsSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Worker } from 'node:worker_threads';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { intervalChart, renderSvg } from '../src/charts/index.js';
import { buildOnce } from './helpers/build-once.js';
import { changedCopy, replaceIn } from './helpers/changed-copy.js';

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

describe('fairwall lock', () => {
  it('seals once, prints the line to publish, and the opinion names what departs', () => {
    const folder = changedCopy('two-walls', scratch, () => undefined);
    const { status, stdout, stderr } = fairwall('lock', folder);
    expect(status).toBe(0);
    const { lockedOn, sha256 } = JSON.parse(readFileSync(join(folder, 'lock.json'), 'utf8'));
    expect(stdout).toContain(`${lockedOn}  SHA-256 ${sha256}`);
    // The bundled walls have been read.
    expect(stderr).toContain('sealed after');
    const again = fairwall('lock', folder);
    expect([again.status, again.stdout]).toEqual([2, '']);
    expect(again.stderr).toMatch(/^lock\.json: found the seal of /);
    replaceIn(folder, 'protocol.json', /"margin": [\d.]+/, '"margin": 1.5');
    expect(fairwall('opinion', folder, '--out', 'locked').status).toBe(0);
    const { lock, threats } = JSON.parse(readFileSync(join(scratch, 'locked', 'opinion.json'), 'utf8'));
    expect(lock.departures).toMatchObject([{ part: 'margin', now: 1.5 }]);
    const found: readonly string[] = threats.flatMap((threat: { code: string; finding: string }) =>
      threat.finding === 'found' ? [threat.code] : [],
    );
    expect(found).toEqual(expect.arrayContaining(['locked-late', 'margin-departed']));
  });

  it('ends with 2 without a folder, and where there is no plan', () => {
    expect(fairwall('lock').status).toBe(2);
    mkdirSync(join(scratch, 'without-plan'));
    const { status, stderr } = fairwall('lock', join(scratch, 'without-plan'));
    expect(status).toBe(2);
    expect(stderr).toContain('protocol.json: found no such file');
  });
});

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

  it.each([
    ['a folder that is not there', ['opinion', 'nowhere', '--out', 'f'], /nowhere/],
    ['no --out', ['opinion', 'nowhere'], /--out FOLDER/],
    ['an unknown command', ['verdict', 'nowhere', '--out', 'f'], /Usage/],
    ['an unknown option', ['opinion', 'nowhere', '--ot', 'f'], /--ot/],
    ['nothing at all', [], /Usage[\s\S]*fairwall new/],
    ['a misspelt command', ['opinon', 'nowhere', '--out', 'f'], /did you mean “opinion”/],
    ['an empty --out', ['opinion', join(root, 'datasets/two-walls'), '--out', ''], /--out names no folder/],
    [
      'a folder of trials',
      ['opinion', join(root, 'datasets'), '--out', 'f'],
      /datasets: found no trial, but \d+ folders with one: .*two-walls.*did you mean/,
    ],
  ])('refuses %s with 2, without a stack trace', (_, words, expected) => {
    const { status, stderr } = fairwall(...words);
    expect(status).toBe(2);
    expect(stderr).toMatch(expected);
    expect(stderr).not.toMatch(/\n\s+at /);
    expect(existsSync(join(scratch, 'f'))).toBe(false);
  });

  it('tries the folder for the opinion before it reads the trial', () => {
    writeFileSync(join(scratch, 'h'), 'mine');
    const { status, stderr } = fairwall('opinion', 'nowhere', '--out', 'h/below');
    expect([status, stderr]).toEqual([2, expect.stringMatching(/^fairwall: cannot write to h\/below: /)]);
  });

  it('names a folder as it was given', () => {
    expect(fairwall('opinion', 'not/here', '--out', 'f').stderr).toBe(
      'not/here: found nothing there, expected a trial folder that can be read\n',
    );
  });

  it.skipIf(process.platform === 'win32')('ends with 0 where nobody reads its words, or they find no room', () => {
    const cli = `${JSON.stringify(process.execPath)} ${JSON.stringify(join(root, 'dist/cli.js'))}`;
    const trial = JSON.stringify(join(root, 'datasets/two-walls'));
    const run = (out: string, rest: string) =>
      spawnSync('bash', ['-c', `set -o pipefail; ${cli} opinion ${trial} --out ${out} ${rest}`], {
        cwd: scratch,
        encoding: 'utf8',
      });
    const closed = run('k', '| true');
    expect([closed.status, closed.stderr]).toEqual([0, '']);
    expect(readdirSync(join(scratch, 'k'))).toHaveLength(3);
    if (!existsSync('/dev/full')) return;
    const full = run('l', '> /dev/full');
    expect([full.status, full.stderr]).toEqual([0, 'fairwall: its words cannot be printed (ENOSPC)\n']);
  });

  it('says its version', () => {
    const { version } = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8')) as { version: string };
    expect(fairwall('--version').stdout).toBe(`${version}\n`);
    expect(fairwall('help').stdout).toBe(fairwall('--help').stdout);
  });

  it('loads nothing but Node for its help', () => {
    const imports = [...readFileSync(join(root, 'src/cli.ts'), 'utf8').matchAll(/^import .* from '([^']+)'/gm)].map(
      ([, from]) => from,
    );
    expect(imports.filter((from) => from?.startsWith('node:') !== true)).toEqual([]);
  });

  it('explains itself', () => {
    const { status, stdout } = fairwall('--help');
    expect(status).toBe(0);
    expect(stdout).toContain('fairwall opinion TRIAL-FOLDER --out FOLDER');
  });
});

describe('fairwall help', () => {
  it.each(['new', 'check', 'opinion', 'help'])('help %s and %s --help say how it is used', (verb) => {
    const said = fairwall('help', verb);
    expect(said).toMatchObject({ status: 0, stderr: '' });
    expect(said.stdout).toMatch(new RegExp(`^fairwall ${verb} `));
    expect(fairwall(verb, '--help').stdout).toBe(said.stdout);
  });

  it('refuses a command that there is not, and suggests the one that was meant', () => {
    expect(fairwall('help', 'chek')).toMatchObject({
      status: 2,
      stderr: expect.stringMatching(/did you mean “check”/),
    });
  });
});

describe('fairwall new and check', () => {
  it.each([
    ['a flag of another command', ['opinion', 'x', '--out', 'refused', '--walls', '8'], /opinion has no --walls/],
    ['one wall', ['new', 'refused', '--walls', '1'], /--walls needs a whole number of walls from 2/],
    ['heights that are none', ['new', 'refused', '--heights', 'low'], /--heights needs/],
    ['a meter that is none', ['new', 'refused', '--meter', 'radar'], /--meter needs/],
    ['no folder', ['new'], /expected: new FOLDER/],
    ['a folder that is not there', ['check', 'nowhere', '--out', 'refused'], /^nowhere: found nothing there/],
  ])('refuse %s with 2, and write nothing', (_, words, expected) => {
    const { status, stderr, stdout } = fairwall(...words);
    expect([status, stdout]).toEqual([2, '']);
    expect(stderr).toMatch(expected);
    expect(existsSync(join(scratch, 'refused'))).toBe(false);
  });
});
