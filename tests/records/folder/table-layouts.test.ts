import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { tableLayouts } from '../../../src/records/folder/table-layouts.js';
import { plainName } from '../../../src/records/folder/table-naming.js';

describe('the reference of the trial folder', () => {
  const lines = readFileSync(join(import.meta.dirname, '..', '..', '..', 'datasets', 'README.md'), 'utf8').split('\n');

  it.each(Object.values(tableLayouts))('names every column of $file in its row', ({ file, needed, optional }) => {
    const row = lines.find((line) => line.startsWith('|') && line.includes(`\`${file}\``)) ?? '';
    const named = [...row.matchAll(/`([^`]+)`/g)].flatMap(([, words = '']) => words.split(', '));
    expect(named).toEqual(expect.arrayContaining([...needed, ...optional]));
  });
});

it.each(Object.values(tableLayouts))(
  'every column of $file is its own plain name and begins with a letter',
  (layout) => {
    const columns = [...layout.needed, ...layout.optional];
    expect(columns.filter((column) => plainName(column) !== column || !/^[a-z]/.test(column))).toEqual([]);
  },
);
