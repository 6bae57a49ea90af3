import { mkdir, rename, rm, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { OutputFolderError } from '../report/write-opinion.js';

const page = 'check.html';

/**
 * Writes the page of a check to a folder, made where it is missing: whole or not at all.
 *
 * @returns the path of the page
 * @throws OutputFolderError where the folder cannot be made or written
 */
export async function writeCheck(html: string, folder: string): Promise<string> {
  const path = join(folder, page);
  const draft = join(folder, `.${page}.${process.pid}`);
  try {
    await mkdir(folder, { recursive: true });
    try {
      await writeFile(draft, html);
      await rename(draft, path);
    } finally {
      await rm(draft, { force: true });
    }
    return path;
  } catch (error) {
    const reason = error instanceof Error ? error.message : String(error);
    throw new OutputFolderError(`cannot write to ${folder}: ${reason}`);
  }
}
