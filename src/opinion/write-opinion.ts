import { mkdir, rename, rm, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import type { RenderedOpinion } from './render-opinion.js';

/** Thrown when the folder for the opinion cannot be written; nothing is left half-written in it. */
export class OutputFolderError extends Error {
  override readonly name = 'OutputFolderError' as const;
}

/**
 * Writes `opinion.html`, `opinion.md` and `opinion.json` to a folder, made where it is missing: all three or none.
 *
 * @throws OutputFolderError where the folder cannot be made or written
 * @example
 * const folder = await fs.mkdtemp('opinion-of-');
 * await writeOpinion({ html: '<p>worthwhile</p>', markdown: 'worthwhile', json: '{}' }, folder);
 * const files = await fs.readdir(folder);
 * await fs.rm(folder, { recursive: true });
 * files.sort() // ['opinion.html', 'opinion.json', 'opinion.md']
 */
export async function writeOpinion({ html, markdown, json }: RenderedOpinion, folder: string): Promise<void> {
  const files = [
    { name: 'opinion.html', text: html },
    { name: 'opinion.md', text: markdown },
    { name: 'opinion.json', text: json },
  ].map(({ name, text }) => ({ path: join(folder, name), partial: join(folder, `.${name}.partial`), text }));
  try {
    await mkdir(folder, { recursive: true });
    await Promise.all(files.map(({ partial, text }) => writeFile(partial, text)));
    for (const { partial, path } of files) await rename(partial, path);
  } catch (error) {
    await Promise.allSettled(files.map(({ partial }) => rm(partial, { force: true })));
    throw new OutputFolderError(`cannot write to ${folder}: ${error instanceof Error ? error.message : String(error)}`);
  }
}
