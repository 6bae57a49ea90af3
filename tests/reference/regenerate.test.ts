import { spawnSync } from 'node:child_process';
import { chmodSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';

const script = join(import.meta.dirname, 'regenerate.mjs');
let folder: string;

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'regenerate-'));
  mkdirSync(join(folder, 'topic'));
  mkdirSync(join(folder, 'bin'));
  writeFileSync(join(folder, 'topic', 'generate.R'), '# stands for a script; the stand-in below does not read it\n');
  commit({ source: 's', tool: 'R 1', cases: [{ name: 'a', value: 0.1 }] });
});

afterEach(() => rmSync(folder, { recursive: true }));

function commit(content: unknown): void {
  writeFileSync(join(folder, 'topic', 'values.json'), JSON.stringify(content));
}

/** Runs the script with a stand-in for Rscript that does what the shell commands say; `$2` is the output folder. */
function regenerate(commands: string) {
  const standIn = join(folder, 'bin', 'Rscript');
  writeFileSync(standIn, `#!/bin/sh\n[ "$1" = --version ] && exit 0\n${commands}\n`);
  chmodSync(standIn, 0o755);
  return run({ PATH: `${join(folder, 'bin')}:/usr/bin:/bin` });
}

function run(env: NodeJS.ProcessEnv) {
  const { status, stdout, stderr } = spawnSync(process.execPath, [script, folder], { env, encoding: 'utf8' });
  return { status, said: stdout + stderr };
}

function making(content: unknown): string {
  return `cat > "$2/values.json" <<'END'\n${JSON.stringify(content)}\nEND`;
}

describe('npm run reference', () => {
  it('passes where every file comes out as committed, rounding of the tenth digit and another version included', () => {
    const made = { source: 's', tool: 'R 2', cases: [{ name: 'a', value: 0.1 * (1 + 5e-10) }] };
    const { status, said } = regenerate(making(made));
    expect(said).toContain('1 file as committed');
    expect(said).toContain('values.json: committed with R 1, here R 2');
    expect(status).toBe(0);
  });

  it.each([
    [
      'another number',
      { source: 's', tool: 'R 1', cases: [{ name: 'a', value: 0.1000000002 }] },
      '/cases/0/value: committed 0.1, made 0.1000000002',
    ],
    [
      'a further case',
      { source: 's', tool: 'R 1', cases: [{ name: 'a', value: 0.1 }, { name: 'b' }] },
      '/cases/1: committed nothing',
    ],
    ['a key less', { source: 's', tool: 'R 1', cases: [{ value: 0.1 }] }, '/cases/0/name: committed "a", made nothing'],
    [
      'a text for a number',
      { source: 's', tool: 'R 1', cases: [{ name: 'a', value: '0.1' }] },
      'committed 0.1, made "0.1"',
    ],
    [
      'another source',
      { source: 't', tool: 'R 1', cases: [{ name: 'a', value: 0.1 }] },
      '/source: committed "s", made "t"',
    ],
  ])('fails on %s and says where', (_what, made, words) => {
    const { status, said } = regenerate(making(made));
    expect(said).toContain('DIFFERS');
    expect(said).toContain(words);
    expect(status).toBe(1);
  });

  it('fails on a file that the script no longer makes, on one not committed, and on a script that breaks', () => {
    expect(regenerate('exit 0').said).toContain('values.json is committed, but the script does not make it');
    const both = `${making({ source: 's', tool: 'R 1', cases: [{ name: 'a', value: 0.1 }] })}\necho '{}' > "$2/new.json"`;
    expect(regenerate(both).said).toContain('new.json is made, but not committed');
    const broken = regenerate('echo "Error: object x not found" >&2; exit 1');
    expect(broken.said).toContain('the script failed: Error: object x not found');
    expect(broken.status).toBe(1);
  });

  it('says in one line which package of R to install', () => {
    const { status, said } = regenerate(
      `echo "Error in library(clubSandwich) : there is no package called ‘clubSandwich’" >&2; exit 1`,
    );
    expect(said).toMatch(
      /^\S*topic: R's package clubSandwich is not here \(on Debian: apt-get install r-cran-clubsandwich\)\n$/,
    );
    expect(status).toBe(2);
    const data = regenerate(`echo "Error: needs Debian's package gretl-data" >&2; exit 1`);
    expect(data.said).toMatch(/topic: the data of gretl-data is not here \(on Debian: apt-get install gretl-data\)\n$/);
    expect(data.status).toBe(2);
    const source = regenerate(`echo "Error: needs Debian's source package gsl" >&2; exit 1`);
    expect(source.said).toMatch(
      /the source of gsl is not here \(on Debian: apt-get source gsl, unpacked in usr\/src .*DEBIAN_ROOT/,
    );
    expect(source.status).toBe(2);
  });

  it('says in one line to install R where there is none', () => {
    const { status, said } = run({ PATH: dirname(script) });
    expect(said).toBe('reference: Rscript is not here: install R (on Debian: apt-get install r-base-core)\n');
    expect(status).toBe(2);
  });
});
