import { mkdir, mkdtemp, readdir, rename, rm, rmdir, writeFile } from 'node:fs/promises';
import { basename, dirname, join, resolve } from 'node:path';
import type { FormChoices } from './form-choices.js';
import { recordingSheets } from './recording-sheets.js';
import { trialSheets } from './trial-sheets.js';
import { workedExample } from './worked-example.js';
import { writeWorkbook } from './write-workbook.js';

/** Thrown when the forms cannot be written; whatever lay there is left as it was. */
export class FormsFolderError extends Error {
  override readonly name = 'FormsFolderError' as const;
}

/** What `new` writes, below the folder. */
export const formFiles = {
  workbook: 'trial.xlsx',
  recordingSheets: 'recording-sheets.html',
  example: 'example/trial.xlsx',
} as const;

/**
 * Writes the forms of a new trial to a folder that is missing or empty: all of them or none.
 *
 * @throws FormsFolderError where something lies in the folder already, or it cannot be written
 */
export async function writeForms(choices: FormChoices, folder: string): Promise<void> {
  await checkFormsFolder(folder);
  const [workbook, example] = await Promise.all([
    writeWorkbook(trialSheets(choices)),
    workedExample().then(writeWorkbook),
  ]);
  await writeFolder(
    new Map<string, string | Uint8Array>([
      [formFiles.workbook, workbook],
      [formFiles.recordingSheets, recordingSheets(choices)],
      [formFiles.example, example],
    ]),
    folder,
  );
}

/**
 * Writes files, by their paths below a folder that is missing or empty: all of them or none. They are made in a folder beside it, which
 * then takes its place.
 *
 * @throws FormsFolderError where something lies in the folder already, or it cannot be written
 */
export async function writeFolder(files: ReadonlyMap<string, string | Uint8Array>, folder: string): Promise<void> {
  await checkFormsFolder(folder);
  const path = resolve(folder);
  let workshop: string | undefined;
  try {
    await mkdir(dirname(path), { recursive: true });
    workshop = await mkdtemp(join(dirname(path), `.${basename(path)}.partial-`));
    const made = join(workshop, 'made');
    for (const [name, content] of files) {
      await mkdir(dirname(join(made, name)), { recursive: true });
      await writeFile(join(made, name), content);
    }
    // Fails where something has been put there in the meantime.
    await rmdir(path).catch(unlessMissing);
    await rename(made, path);
  } catch (error) {
    throw new FormsFolderError(`cannot write to ${folder}: ${error instanceof Error ? error.message : String(error)}`);
  } finally {
    if (workshop !== undefined) await rm(workshop, { recursive: true, force: true });
  }
}

/**
 * Looks whether forms can be written to a folder: to be asked before any question.
 *
 * @throws FormsFolderError where something lies there
 */
export async function checkFormsFolder(folder: string): Promise<void> {
  let names: readonly string[];
  try {
    names = await readdir(folder);
  } catch (error) {
    if (codeOf(error) === 'ENOENT') return;
    const reason =
      codeOf(error) === 'ENOTDIR' ? 'it is a file' : error instanceof Error ? error.message : String(error);
    throw new FormsFolderError(`cannot write to ${folder}: ${reason}`);
  }
  if (names.length === 0) return;
  const more = names.length > 1 ? ` and ${names.length - 1} more` : '';
  throw new FormsFolderError(`${folder} holds ${names[0]}${more} already; name a folder that is missing or empty`);
}

function unlessMissing(error: unknown): void {
  if (codeOf(error) !== 'ENOENT') throw error;
}

function codeOf(error: unknown): string {
  return error instanceof Error && 'code' in error ? String(error.code) : '';
}
