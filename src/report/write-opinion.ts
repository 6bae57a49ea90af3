import { access, constants, lstat, mkdir, rename, rm, stat, writeFile } from 'node:fs/promises';
import { dirname, join, resolve } from 'node:path';
import { enterWorkshop } from './enter-workshop.js';
import type { RenderedOpinion } from './render-opinion.js';

/** Thrown when the folder for the opinion cannot be written; what was in it is left as it was. */
export class OutputFolderError extends Error {
  override readonly name = 'OutputFolderError' as const;
}

/** What is written beside the three files where it was asked for. */
export interface FurtherFiles {
  readonly pdf?: Uint8Array;
  readonly word?: Uint8Array;
  /** By file name. */
  readonly figures?: ReadonlyMap<string, string | Uint8Array>;
}

const names = ['opinion.html', 'opinion.md', 'opinion.json', 'opinion.pdf', 'opinion.docx'] as const;

/** The one folder among what is written. */
const figuresFolder = 'opinion-figures';

/** The one place in the folder where files are made; whoever has made it is the one who writes. */
const workshop = '.opinion.partial';
/** To write takes a moment. */
const usualPatience_ms = 10_000;

/**
 * Writes `opinion.html`, `opinion.md` and `opinion.json` to a folder, made where it is missing, with further files where there are: all or
 * none. Of two writers at a time one waits for the other, ten seconds unless told otherwise, and gives up rather than turn it out. One
 * that is killed may leave fewer files, never those of two opinions.
 *
 * @throws OutputFolderError where the folder cannot be made or written
 * @example
 * const folder = await fs.mkdtemp('opinion-of-');
 * await writeOpinion({ html: '<p>worthwhile</p>', markdown: 'worthwhile', json: '{}' }, folder);
 * const files = await fs.readdir(folder);
 * await fs.rm(folder, { recursive: true });
 * files.sort() // ['opinion.html', 'opinion.json', 'opinion.md']
 */
export async function writeOpinion(
  { html, markdown, json }: RenderedOpinion,
  folder: string,
  { patience_ms = usualPatience_ms, ...further }: FurtherFiles & { readonly patience_ms?: number } = {},
): Promise<void> {
  const files = [
    ['opinion.html', html],
    ['opinion.md', markdown],
    ['opinion.json', json],
    ...(further.pdf === undefined ? [] : [['opinion.pdf', further.pdf] as const]),
    ...(further.word === undefined ? [] : [['opinion.docx', further.word] as const]),
  ] as const;
  const made = [...files.map(([name]) => name), ...(further.figures === undefined ? [] : [figuresFolder])];
  const place = join(folder, workshop);
  try {
    await mkdir(folder, { recursive: true });
    await enterWorkshop(place, patience_ms);
  } catch (error) {
    throw cannotWrite(folder, error);
  }
  try {
    await Promise.all(files.map(([name, content]) => writeFile(join(place, name), content)));
    if (further.figures !== undefined) await writeFigures(further.figures, join(place, figuresFolder));
    await refuseFolders(folder);
    await exchange(folder, place, made);
  } catch (error) {
    throw cannotWrite(folder, error);
  } finally {
    await rm(place, { recursive: true, force: true }).catch(() => undefined);
  }
}

/**
 * Looks whether an opinion can be written to a folder, and writes nothing: to be asked before the work.
 *
 * @throws OutputFolderError where it cannot
 */
export async function checkOutputFolder(folder: string): Promise<void> {
  try {
    let existing = resolve(folder);
    while ((await stat(existing).catch(unlessThere)) === undefined) existing = dirname(existing);
    if (!(await stat(existing)).isDirectory()) throw new Error(`${existing} is no folder`);
    await access(existing, constants.W_OK | constants.X_OK);
    await refuseFolders(folder);
  } catch (error) {
    throw cannotWrite(folder, error);
  }
}

function unlessThere(error: unknown): undefined {
  if (codeOf(error) !== 'ENOENT') throw error;
}

/** A folder in the place of a file would be found only when the other files have been exchanged. */
async function refuseFolders(folder: string): Promise<void> {
  for (const name of names) {
    const facts = await lstat(join(folder, name)).catch(unlessThere);
    if (facts?.isDirectory() === true) throw new Error(`${name} is a folder there`);
  }
}

async function writeFigures(figures: ReadonlyMap<string, string | Uint8Array>, folder: string): Promise<void> {
  await mkdir(folder);
  for (const [name, content] of figures) await writeFile(join(folder, name), content);
}

/** Old files go first, all of them, also those that are not written anew, and come back where a new one cannot take its place. */
async function exchange(folder: string, place: string, made: readonly string[]): Promise<void> {
  const undo: (() => Promise<void>)[] = [];
  try {
    for (const name of [...names, figuresFolder]) {
      const [path, kept] = [join(folder, name), join(place, `old-${name}`)];
      if ((await lstat(path).catch(unlessThere)) === undefined) continue;
      await rename(path, kept);
      undo.unshift(() => rename(kept, path));
    }
    for (const name of made) {
      const path = join(folder, name);
      await rename(join(place, name), path);
      undo.unshift(() => rm(path, { recursive: true }));
    }
  } catch (error) {
    for (const step of undo) await step().catch(() => undefined);
    throw error;
  }
}

function codeOf(error: unknown): string {
  return error instanceof Error && 'code' in error ? String(error.code) : '';
}

function cannotWrite(folder: string, error: unknown): OutputFolderError {
  return new OutputFolderError(`cannot write to ${folder}: ${error instanceof Error ? error.message : String(error)}`);
}
