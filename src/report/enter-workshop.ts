import { lstat, mkdir, readFile, rm, rmdir, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { setTimeout } from 'node:timers/promises';

const pause_ms = 20;
/** The name of the process that has made the folder. */
const ownerFile = 'writer';

/**
 * Makes a folder in which one process at a time works, after whoever is in it has left. What a process left behind that is no more is
 * cleared away; one that lives is waited for, and never turned out.
 *
 * @throws the refusal of the file system; an Error where the folder is still taken when patience ends
 */
export async function enterWorkshop(place: string, patience_ms: number): Promise<void> {
  for (const began = performance.now(); ; ) {
    if (await isMade(place)) return;
    if (await isAbandoned(place, patience_ms)) await clear(place, patience_ms);
    else if (performance.now() - began > patience_ms)
      throw new Error(`another process has been writing there for long; if there is none, delete ${place}`);
    else await setTimeout(pause_ms);
  }
}

async function isMade(place: string): Promise<boolean> {
  try {
    await mkdir(place);
    // Never over the name of another.
    await writeFile(join(place, ownerFile), `${process.pid}`, { flag: 'wx' });
    return true;
  } catch (error) {
    if (codeOf(error) !== 'EEXIST') throw error;
    return false;
  }
}

/** One clears away at a time, and looks again when it is its turn: by then the folder may be another's, who lives. */
async function clear(place: string, patience_ms: number): Promise<void> {
  const turn = `${place}.clearing`;
  try {
    await mkdir(turn);
  } catch (error) {
    if (codeOf(error) !== 'EEXIST') throw error;
    // Whoever clears needs a moment, far less than anybody waits; a turn that nobody ends was left by the dead.
    if (await isOlder(turn, patience_ms / 5)) await rmdir(turn).catch(() => undefined);
    await setTimeout(pause_ms);
    return;
  }
  try {
    if (await isAbandoned(place, patience_ms)) await rm(place, { recursive: true, force: true });
  } finally {
    await rmdir(turn).catch(() => undefined);
  }
}

async function isAbandoned(place: string, patience_ms: number): Promise<boolean> {
  const pid = Number(await readFile(join(place, ownerFile), 'utf8').catch(() => ''));
  // No name yet, or none any more: whoever makes the folder writes its name at once, and never into that of another.
  if (!Number.isInteger(pid) || pid <= 0) return isOlder(place, patience_ms / 5);
  try {
    process.kill(pid, 0);
    return false;
  } catch (error) {
    return codeOf(error) === 'ESRCH';
  }
}

async function isOlder(place: string, age_ms: number): Promise<boolean> {
  const facts = await lstat(place).catch(() => undefined);
  return facts !== undefined && Date.now() - facts.mtimeMs > age_ms;
}

function codeOf(error: unknown): string {
  return error instanceof Error && 'code' in error ? String(error.code) : '';
}
