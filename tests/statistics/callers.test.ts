import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { readNotebook, toText } from '../../notebooks/notebook-file.mjs';
import * as statistics from '../../src/statistics/index.js';

interface Cell {
  readonly cell_type: string;
  readonly source: readonly string[];
}

const root = join(import.meta.dirname, '..', '..');

function filesBelow(folder: string, ending: string): readonly string[] {
  const files = readdirSync(join(root, folder), { recursive: true, encoding: 'utf8' });
  return files.filter((file) => file.endsWith(ending)).map((file) => join(folder, file));
}

/** The code of a file without its comments, in which an example is no call. */
const codeOf = (file: string) => readFileSync(join(root, file), 'utf8').replace(/^\s*(\*|\/\*|\/\/).*$/gm, '');
const cellsOf = (file: string): readonly Cell[] => readNotebook(join(root, file)).cells;

const sources = filesBelow('src', '.ts').filter((file) => !file.startsWith(join('src', 'statistics')));
const cells = readdirSync(join(root, 'notebooks'))
  .filter((file) => file.endsWith('.ipynb'))
  .map((file) => join('notebooks', file))
  .flatMap(cellsOf)
  .filter(({ cell_type }) => cell_type === 'code');
const code = [...sources.map(codeOf), ...cells.map(({ source }) => toText(source))].join('\n');
const imported = /^(import|export) (type )?(\{[^}]*\}|\*[^;]*|[\w, {}]+) from '[^']+';$/gm;
const words = new Set(code.replace(imported, '').match(/\b\w+\b/g));

describe('fairwall/statistics', () => {
  it('has no function that neither a room nor a notebook calls', () => {
    expect(Object.keys(statistics).filter((name) => !words.has(name))).toEqual([]);
  });
});
