import { spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, readdirSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';

const root = join(import.meta.dirname, '..', '..');

/** An empty project of somebody else, into which the packed library was installed. */
export interface ConsumerProject {
  readonly folder: string;
  readonly tarball: string;
}

/** Packs what `dist/` holds now and installs it as a user would, from the tarball. */
export function installInEmptyProject(): ConsumerProject {
  const scratch = mkdtempSync(join(tmpdir(), 'consumer-'));
  run('npm', ['pack', '--ignore-scripts', '--silent', '--pack-destination', scratch], root);
  const tarball = join(scratch, readdirSync(scratch)[0] ?? '');
  const folder = join(scratch, 'project');
  writeIn(folder, 'package.json', JSON.stringify({ name: 'consumer', private: true, type: 'module' }));
  run('npm', ['install', '--prefer-offline', '--no-audit', '--no-fund', '--silent', tarball], folder);
  return { folder, tarball };
}

export function writeIn(folder: string, file: string, text: string): void {
  mkdirSync(dirname(join(folder, file)), { recursive: true });
  writeFileSync(join(folder, file), text);
}

/** Standard output of a command; throws with everything that it said when it fails. */
export function run(
  command: string,
  words: readonly string[],
  folder: string,
  settings: Readonly<Record<string, string>> = {},
): string {
  const env = { ...process.env, ...settings };
  const { status, stdout, stderr } = spawnSync(command, words, { cwd: folder, env, encoding: 'utf8' });
  if (status !== 0) throw new Error(`${command} ${words.join(' ')} ended with ${status}:\n${stdout}${stderr}`);
  return stdout;
}
