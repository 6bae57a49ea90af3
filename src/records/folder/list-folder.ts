import { readdir, readFile, stat } from 'node:fs/promises';
import { join } from 'node:path';
import { present } from '../../plain/present.js';
import type { Problem } from '../../trial/index.js';
import { quoted } from '../quoted.js';
import { fileOfSheet, lockFile, planLayout, protocolFile, sheetNames } from './table-layouts.js';
import { whyUnreadable } from './why-unreadable.js';

/** The bytes of the contract's files, and the names of all files that lie in the folder. */
export interface FolderContents {
  readonly bytes: ReadonlyMap<string, Uint8Array>;
  /** The one workbook, where there is one. */
  readonly workbook?: string;
  readonly names: readonly string[];
}

// Beyond this a table no longer fits comfortably in memory several times over, and a protocol is none.
const largestTable_kB = 256 * 1024;
const largestProtocol_kB = 256;
// Beside the plan it holds every wall.
const largestLock_kB = 4 * 1024;

const contractFiles: ReadonlySet<string> = new Set([protocolFile, lockFile, ...sheetNames.map(fileOfSheet)]);

/**
 * Reads the files of the contract from a folder, once each. Whatever else lies there is ignored.
 *
 * @returns nothing when the folder itself cannot be read; the reason is then among the problems.
 */
export async function listFolder(folder: string, problems: Problem[]): Promise<FolderContents | undefined> {
  const names = await namesIn(folder, problems);
  if (names === undefined || (await isFolderOfTrials(folder, names, problems))) return undefined;
  const workbooks = names.filter(isWorkbook);
  if (workbooks.length > 1) {
    problems.push({
      file: workbooks[1] ?? '',
      found: `${workbooks.length} workbooks in one folder: ${workbooks.join(', ')}`,
      expected: 'at most one .xlsx file, with one sheet a table',
    });
  }
  const workbook = workbooks[0];
  if (workbook !== undefined && /[\p{Cc}\p{Zl}\p{Zp}]/u.test(workbook)) {
    // The report tells how to check the file with a command, which such a name would tear apart.
    problems.push({
      file: quoted(workbook),
      found: 'a name of several lines',
      expected: 'a name without control characters',
    });
  }
  const wanted = names.filter((name) => contractFiles.has(name) || name === workbook);
  // One after another a dozen small files take more than twice as long.
  const contents = await Promise.all(wanted.map((name) => bytesOf(folder, name)));
  const bytes = new Map<string, Uint8Array>();
  for (const [at, content] of contents.entries()) {
    const file = wanted[at] ?? '';
    if (content instanceof Uint8Array) bytes.set(file, content);
    else problems.push({ file, ...content });
  }
  return { bytes, names, ...present({ workbook }) };
}

function isWorkbook(name: string): boolean {
  // A name that begins with ~$ is the lock that a spreadsheet program leaves beside an open workbook.
  return name.toLowerCase().endsWith('.xlsx') && !name.startsWith('~$') && !name.startsWith('.');
}

async function namesIn(folder: string, problems: Problem[]): Promise<string[] | undefined> {
  const file = folder;
  try {
    if (!(await stat(folder)).isDirectory()) {
      problems.push({ file, found: 'a file', expected: 'a folder that holds protocol.json, walls.csv and readings' });
      return undefined;
    }
    return (await readdir(folder)).sort();
  } catch (error) {
    problems.push({ file, found: whyUnreadable(error), expected: 'a trial folder that can be read' });
    return undefined;
  }
}

/** A folder without a plan whose folders hold plans: one of those was meant. */
async function isFolderOfTrials(folder: string, names: readonly string[], problems: Problem[]): Promise<boolean> {
  if (names.some((name) => (contractFiles.has(name) && name !== lockFile) || isWorkbook(name))) return false;
  const trials: string[] = [];
  for (const name of names) {
    if ((await hasFile(join(folder, name, protocolFile))) || (await hasFile(join(folder, name, planLayout.file))))
      trials.push(name);
  }
  if (trials.length === 0) return false;
  const found = `no trial, but ${trials.length === 1 ? 'a folder' : `${trials.length} folders`} with one: ${shortList(trials)}`;
  problems.push({ file: folder, found, expected: 'a trial folder', suggestion: join(folder, trials[0] ?? '') });
  return true;
}

async function hasFile(path: string): Promise<boolean> {
  return (await stat(path).catch(() => undefined))?.isFile() === true;
}

function shortList(names: readonly string[]): string {
  const most = 20;
  return names.length > most ? `${names.slice(0, most).join(', ')} and ${names.length - most} more` : names.join(', ');
}

/** What a file holds, or why it cannot be had. */
async function bytesOf(folder: string, name: string): Promise<Uint8Array | Pick<Problem, 'found' | 'expected'>> {
  const path = join(folder, name);
  try {
    const facts = await stat(path);
    const size_kB = Math.ceil(facts.size / 1024);
    const largest_kB =
      name === protocolFile ? largestProtocol_kB : name === lockFile ? largestLock_kB : largestTable_kB;
    if (facts.isFile() && size_kB <= largest_kB) return await readFile(path);
    const found = facts.isFile() ? sizeInWords(size_kB) : 'something that is not a file';
    return { found, expected: `a file of at most ${sizeInWords(largest_kB)}` };
  } catch (error) {
    return { found: whyUnreadable(error), expected: 'a file that can be read' };
  }
}

function sizeInWords(size_kB: number): string {
  return size_kB < 1024 ? `${size_kB} kB` : `${Math.ceil(size_kB / 1024)} MB`;
}
