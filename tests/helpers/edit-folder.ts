import { checkTrial } from '../../src/records/index.js';
import { describeProblem } from '../../src/trial/index.js';
import { cellsOf, csvOf } from './spellings.js';
import { type FolderFiles, inFolder, validFolder } from './valid-folder.js';

type Files = Record<string, string | Uint8Array>;

/** A small change to a folder. */
export type Edit = (files: Files) => void;

/** The valid folder after some changes. */
export function editedFolder(...edits: readonly Edit[]): FolderFiles {
  const files: Files = validFolder();
  for (const edit of edits) edit(files);
  return files;
}

/** Exchanges a piece of a file's text, once; it must be there. */
export function replace(file: string, piece: string, by: string): Edit {
  return (files) => {
    const text = String(files[file]);
    if (!text.includes(piece)) throw new Error(`${file} holds no ${JSON.stringify(piece)}`);
    files[file] = text.replace(piece, () => by);
  };
}

/** Fills one cell of a table. Rows are counted from the header, which is row 1. */
export function setCell(file: string, row: number, column: string, value: string): Edit {
  return (files) => {
    const cells = cellsOf(String(files[file]));
    const index = cells[0]?.indexOf(column) ?? -1;
    const line = cells[row - 1];
    if (line?.[index] === undefined) throw new Error(`${file} has no row ${row} with ${column}`);
    line[index] = value;
    files[file] = csvOf(cells, ',', '\n');
  };
}

/** Adds columns at the end of a table, filled in the rows that are named and empty in all others. */
export function addColumns(
  file: string,
  columns: readonly string[],
  filled: Readonly<Record<number, readonly string[]>>,
): Edit {
  return (files) => {
    const cells = cellsOf(String(files[file]));
    const wider = cells.map((line, at) => [
      ...line,
      ...(at === 0 ? columns : columns.map((_, column) => filled[at + 1]?.[column] ?? '')),
    ]);
    files[file] = csvOf(wider, ',', '\n');
  };
}

export function addLine(file: string, line: string): Edit {
  return (files) => {
    files[file] = `${String(files[file])}${line}\n`;
  };
}

export function put(file: string, content: string | Uint8Array): Edit {
  return (files) => {
    files[file] = content;
  };
}

export function remove(...names: readonly string[]): Edit {
  return (files) => {
    for (const name of names) delete files[name];
  };
}

export function rename(from: string, to: string): Edit {
  return (files) => {
    files[to] = files[from] ?? '';
    delete files[from];
  };
}

/** Changes the parsed protocol and writes it anew. */
export function protocol(change: (protocol: Record<string, unknown>) => void): Edit {
  return (files) => {
    const value = JSON.parse(String(files['protocol.json'])) as Record<string, unknown>;
    change(value);
    files['protocol.json'] = `${JSON.stringify(value, null, 2)}\n`;
  };
}

/** What a folder is refused with, one line a problem; empty when it reads as a trial. */
export async function refusal(files: FolderFiles): Promise<string[]> {
  const check = await inFolder(files, checkTrial);
  return check.kind === 'trial' ? [] : check.problems.map(describeProblem);
}
