import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join, relative } from 'node:path';
import { describe, expect, it } from 'vitest';

const source = join(import.meta.dirname, '..', 'src');

const floors: Record<string, number> = {
  plain: 0,
  statistics: 1,
  trial: 1,
  words: 1,
  records: 2,
  moisture: 2,
  charts: 2,
  drying: 3,
  analysis: 3,
  forms: 3,
  labels: 4,
  findings: 5,
  opinion: 6,
  planning: 7,
  tables: 7,
  report: 8,
  checking: 9,
  papers: 9,
  command: 10,
  'index.ts': 11,
  'cli.ts': 11,
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

  it('has no circle of imports, not even of types', () => {
    expect(circles(new Map(files.map((file) => [file, targetsOf(file)])))).toEqual([]);
  });

  it('sees a circle', () => {
    expect(
      circles(
        new Map([
          ['a', ['b']],
          ['b', ['c']],
          ['c', ['b']],
        ]),
      ),
    ).toEqual([['b', 'c']]);
    expect(
      circles(
        new Map([
          ['a', ['b', 'c']],
          ['b', ['c']],
          ['c', []],
        ]),
      ),
    ).toEqual([]);
  });

  it('says no to an upward and to a sideways import', () => {
    expect(mayImport('statistics', 'analysis')).toBe(false);
    expect(mayImport('moisture', 'records')).toBe(false);
    expect(mayImport('analysis', 'statistics')).toBe(true);
  });

  // The report may take the types of these rooms, and limits and sources to print; it may call nothing of theirs.
  it.each(['statistics', 'moisture', 'drying', 'analysis'])(
    'src/report computes nothing: no function of src/%s',
    async (room) => {
      const face: Record<string, unknown> = await import(join(source, room, 'index.ts'));
      const taken = files.filter((file) => roomOf(file) === 'report').flatMap((file) => valuesTaken(file, room));
      expect(taken.filter(({ name, from }) => typeof face[name] === 'function' || !from.endsWith('/index.js'))).toEqual(
        [],
      );
    },
  );

  it('sees a function that is taken from another room, and not a type', () => {
    const text =
      "import { type Interval, mean } from '../../statistics/index.js';\nimport type { A } from '../statistics/b.js';";
    expect(valuesIn(text, 'statistics').map(({ name }) => name)).toEqual(['mean']);
  });
});

function valuesTaken(file: string, room: string) {
  return valuesIn(readFileSync(join(source, file), 'utf8'), room).map((each) => ({ file, ...each }));
}

/** The names of values, not types, that a text imports from a room. */
function valuesIn(text: string, room: string): readonly { readonly name: string; readonly from: string }[] {
  return [...text.matchAll(/^import \{([^}]*)\} from '([^']+)'/gm)].flatMap(([, names = '', from = '']) =>
    from.replace(/^(\.\.\/)+/, '').startsWith(`${room}/`)
      ? names
          .split(',')
          .map((name) => name.trim())
          .filter((name) => name !== '' && !name.startsWith('type '))
          .map((name) => ({ name: name.split(' as ')[0] ?? name, from }))
      : [],
  );
}

/** The files that a file imports, or hands on, values and types alike. */
function targetsOf(file: string): readonly string[] {
  const text = readFileSync(join(source, file), 'utf8');
  const specifiers = [...text.matchAll(/^(?:import|export)[^;]*? from '(\.[^']+)'/gm)].map((match) => match[1] ?? '');
  return specifiers.map((specifier) => join(dirname(file), specifier).replace(/\.js$/, '.ts'));
}

/** Each circle once, as far as a walk along the imports meets it. */
function circles(imports: ReadonlyMap<string, readonly string[]>): readonly (readonly string[])[] {
  const found: string[][] = [];
  const done = new Set<string>();
  const walk = (file: string, path: readonly string[]): void => {
    const at = path.indexOf(file);
    if (at >= 0) found.push(path.slice(at));
    if (at >= 0 || done.has(file)) return;
    for (const target of imports.get(file) ?? []) walk(target, [...path, file]);
    done.add(file);
  };
  for (const file of imports.keys()) walk(file, []);
  return found;
}
