import { spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';

const root = join(import.meta.dirname, '..', '..');
const lock = join(root, 'node_modules', '.cache', 'fairwall-build');

/**
 * Builds the package if `dist/` is missing or older than what it is made of. Test files that run side by side wait for the
 * one that builds. For `beforeAll` in tests of what is built.
 */
export async function buildOnce(): Promise<void> {
  while (beingBuilt() || isStale()) {
    if (takeLock()) {
      try {
        if (isStale()) build();
      } finally {
        rmSync(lock, { force: true });
      }
    } else await pause(100);
  }
}

function build(): void {
  const { status, stdout, stderr } = spawnSync('npm', ['run', '--silent', 'build'], { cwd: root, encoding: 'utf8' });
  if (status !== 0) throw new Error(`the build failed:\n${stdout}${stderr}`);
}

/** The bytecode of the packed command is written last, and only where nothing failed: it is a sign of a whole build. */
function isStale(): boolean {
  const built = join(root, 'dist', 'bundle', 'commands.cjs.cache');
  if (!existsSync(built)) return true;
  const made = statSync(built).mtimeMs;
  const sources = readdirSync(join(root, 'src'), { recursive: true, encoding: 'utf8' }).map((file) =>
    join('src', file),
  );
  return [...sources, 'tsconfig.json', 'package.json'].some((file) => statSync(join(root, file)).mtimeMs > made);
}

/** The lock holds the id of the process that builds; one that died without letting go counts for nothing. */
function beingBuilt(): boolean {
  if (!existsSync(lock)) return false;
  if (isAlive(Number(readFileSync(lock, 'utf8')))) return true;
  rmSync(lock, { force: true });
  return false;
}

function takeLock(): boolean {
  mkdirSync(join(lock, '..'), { recursive: true });
  try {
    writeFileSync(lock, String(process.pid), { flag: 'wx' });
    return true;
  } catch {
    return false;
  }
}

function isAlive(id: number): boolean {
  try {
    process.kill(id, 0);
    return true;
  } catch {
    return false;
  }
}
