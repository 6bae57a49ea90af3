import { spawnSync } from 'node:child_process';
import {
  copyFileSync,
  existsSync,
  linkSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';

const root = join(import.meta.dirname, '..', '..');

/** An empty project of somebody else, into which the packed library was installed. */
export interface ConsumerProject {
  readonly folder: string;
}

/**
 * Packs what `dist/` holds now and installs it as a user would. The packages that the lock file gives to users lie there already:
 * npm takes away what ours does not ask for, and to unpack 5,000 files of others again would show nothing.
 */
export function installInEmptyProject(): ConsumerProject {
  const folder = projectWithPackages();
  const plainly = ['--prefer-offline', '--no-audit', '--no-fund', '--silent', '--ignore-scripts'];
  run('npm', ['install', '--install-links', ...plainly, root], folder);
  return { folder };
}

/**
 * Puts in their place the parts of `dist/` and of the data sets that npm would pack, which takes it twenty seconds: enough to ask how
 * the installed library behaves, and not what npm makes of it.
 */
export function placeInEmptyProject(): ConsumerProject {
  const folder = projectWithPackages();
  const place = join(folder, 'node_modules', 'fairwall');
  for (const name of ['dist', 'datasets']) copyTree(join(root, name), join(place, name));
  copyFileSync(join(root, 'package.json'), join(place, 'package.json'));
  const { bin } = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8')) as {
    readonly bin: { fairwall: string };
  };
  mkdirSync(join(folder, 'node_modules', '.bin'));
  symlinkSync(join('..', 'fairwall', bin.fairwall), join(folder, 'node_modules', '.bin', 'fairwall'));
  return { folder };
}

function projectWithPackages(): string {
  const folder = join(mkdtempSync(join(tmpdir(), 'consumer-')), 'project');
  writeIn(folder, 'package.json', JSON.stringify({ name: 'consumer', private: true, type: 'module' }));
  for (const path of lockedForUsers()) copyTree(join(root, path), join(folder, path));
  return folder;
}

interface Locked {
  readonly dev?: boolean;
  readonly devOptional?: boolean;
}

/** Folders of the packages that are no mere tools of ours, those left out that another machine needs. */
function lockedForUsers(): readonly string[] {
  const { packages } = JSON.parse(readFileSync(join(root, 'package-lock.json'), 'utf8')) as {
    readonly packages: Readonly<Record<string, Locked>>;
  };
  return Object.entries(packages)
    .filter(([path, { dev, devOptional }]) => path !== '' && !dev && !devOptional && existsSync(join(root, path)))
    .map(([path]) => path);
}

/** Without the packages inside a package, which the lock file lists by themselves. */
function copyTree(from: string, to: string): void {
  mkdirSync(to, { recursive: true });
  for (const entry of readdirSync(from, { withFileTypes: true })) {
    const [source, target] = [join(from, entry.name), join(to, entry.name)];
    if (!entry.isDirectory()) linkOrCopy(source, target);
    else if (entry.name !== 'node_modules') copyTree(source, target);
  }
}

function linkOrCopy(from: string, to: string): void {
  try {
    linkSync(from, to);
  } catch {
    // Another disk, or one that knows no links.
    copyFileSync(from, to);
  }
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
