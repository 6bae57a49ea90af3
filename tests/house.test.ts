import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join, relative } from 'node:path';
import { describe, expect, it } from 'vitest';

const source = join(import.meta.dirname, '..', 'src');

const floors: Record<string, number> = {
  statistics: 1,
  trial: 1,
  words: 1,
  records: 2,
  moisture: 2,
  charts: 2,
  drying: 3,
  analysis: 3,
  forms: 3,
  findings: 4,
  opinion: 5,
  planning: 6,
  tables: 6,
  report: 7,
  checking: 8,
  papers: 8,
  command: 9,
  'index.ts': 10,
  'cli.ts': 10,
};

const files = readdirSync(source, { recursive: true, encoding: 'utf8' }).filter((file) => file.endsWith('.ts'));

function roomOf(file: string): string {
  return file.split('/')[0] ?? file;
}

function importsOf(file: string): string[] {
  const text = readFileSync(join(source, file), 'utf8');
  const specifiers = [...text.matchAll(/\b(?:from|import)\s*\(?\s*'(\.[^']+)'/g)].map((match) => match[1] ?? '');
  return specifiers.map((specifier) => relative(source, join(source, dirname(file), specifier)));
}

function mayImport(from: string, to: string): boolean {
  const [fromFloor, toFloor] = [floors[from], floors[to.replace(/\.js$/, '.ts')]];
  if (fromFloor === undefined || toFloor === undefined) return false;
  // The command stands on the public face.
  return from === to || toFloor < fromFloor || (from === 'cli.ts' && to === 'index.js');
}

describe('the house', () => {
  it('knows the floor of every room', () => {
    expect(files.map(roomOf).filter((room) => floors[room] === undefined)).toEqual([]);
  });

  it.each(files)('src/%s imports only downward or from its own room', (file) => {
    const upward = importsOf(file).filter((target) => !mayImport(roomOf(file), roomOf(target)));
    expect(upward).toEqual([]);
  });

  it('says no to an upward and to a sideways import', () => {
    expect(mayImport('statistics', 'analysis')).toBe(false);
    expect(mayImport('moisture', 'records')).toBe(false);
    expect(mayImport('analysis', 'statistics')).toBe(true);
  });
});
