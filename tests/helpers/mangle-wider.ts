import fc from 'fast-check';
import writeWorkbook from 'write-excel-file/node';
import { openArchive } from '../../src/records/folder/open-archive.js';
import { mangledFolder } from './mangle-folder.js';
import { cellsOf, csvOf, sheetsOf } from './spellings.js';
import { type FolderFiles, validFolder } from './valid-folder.js';
import { zipOf } from './zip-of.js';

type Files = Record<string, string | Uint8Array>;
/** Something that befalls a folder as a whole; what it needs may not be there any more. */
type Mishap = (files: Files) => void;

const letters = new TextEncoder();
const textOf = (content: string | Uint8Array | undefined) =>
  typeof content === 'string' ? content : new TextDecoder().decode(content);

const fraction = fc.double({ min: 0, max: 1, maxExcluded: true, noNaN: true });
const pick = <Item>(items: readonly Item[], where: number): Item | undefined => items[Math.floor(where * items.length)];

/** Names that mean something to a program, a terminal, a shell or a document. */
const oddName = fc.constantFrom(
  ...['constructor', '__proto__', 'toString', 'hasOwnProperty', 'length', 'undefined', 'null', 'NaN', '0', '-1', ' '],
  ...[
    '<b>x</b>',
    '](x)',
    '`',
    '```',
    '|',
    '\\',
    '"',
    "'",
    '$(x)',
    ';',
    '\u202ex',
    'x\u200b',
    'e\u0301',
    '\u001b[2J',
    '💧',
  ],
  ...['a\nb', 'W'.repeat(5000), '\ud800', '=1+1', '[1]', '*', '../../x', 'unknown', 'treated', 'NA', 'n/a', '–'],
);

/** Numbers at the ends of what can be measured, or beyond. */
const oddNumber = fc.constantFrom(
  ...[
    '0',
    '-0',
    '1e12',
    '1e13',
    '1e-12',
    '1e-13',
    '-1e12',
    '1e308',
    '1e-308',
    '<1e-12',
    '<1e12',
    '12.5000000000000001',
  ],
  ...['46.25', '12.50', '100', '−5', '1_0', '14.9%', '1,5', '1.234,5', 'inf', '-inf', 'nan', '', 'NA', '<', '0x1F'],
);

const tables = ['walls.csv', 'stations.csv', 'readings.csv', 'cores.csv', 'climate.csv', 'blinding.csv', 'diary.csv'];

function inTable(change: (cells: string[][], where: number, also: number) => void): fc.Arbitrary<Mishap> {
  return fc
    .tuple(fc.constantFrom(...tables, 'sensors.csv'), fraction, fraction)
    .map(([name, where, also]) => (files) => {
      if (typeof files[name] !== 'string') return;
      const cells = cellsOf(files[name]);
      change(cells, where, also);
      files[name] = csvOf(cells, ',', '\n');
    });
}

/** The same word or number in every row of a column, or in some. */
const wholeColumn = fc.oneof(oddName, oddNumber).chain((word) =>
  inTable((cells, where, also) => {
    const column = Math.floor(where * (cells[0]?.length ?? 0));
    for (const [row, line] of cells.entries()) if (row > 0 && (row * 0.618) % 1 >= also - 0.3) line[column] = word;
  }),
);

/** A name exchanged throughout the folder, so that all tables still agree. */
const renamed = fc.tuple(fc.constantFrom('treated', 'control', 'w1', 'w4', 'low', 'core', 'mw', 'Ada'), oddName).map(
  ([from, to]): Mishap =>
    (files) => {
      for (const [name, content] of Object.entries(files)) {
        if (typeof content !== 'string') continue;
        if (name === 'protocol.json') files[name] = content.replaceAll(`"${from}"`, () => JSON.stringify(to));
        else if (name.endsWith('.csv'))
          files[name] = csvOf(
            cellsOf(content).map((cells) => cells.map((cell) => (cell === from ? to : cell))),
            ',',
            '\n',
          );
      }
    },
);

/** What may stand in the plan and is no slip of the keyboard. */
const otherPlan = fc
  .constantFrom<Record<string, unknown>>(
    ...[0.51, 0.9, 0.999, 0.9999, 1].map((confidence) => ({ confidence })),
    ...[1e-12, 0.1, 50, 1e12].map((margin) => ({ margin })),
    ...['chosen', 'randomised', 'randomised-in-blocks'].map((method) => ({ allocation: { method } })),
    ...['lower', 'higher'].map((better) => ({ outcome: { instrument: 'mw', quantity: 'index', unit: '', better } })),
    { outcome: { instrument: 'mw', quantity: 'index', unit: 'points', better: 'lower' } },
    { windows: { before: { from: '2024-03-12', to: '2024-03-12' }, after: { from: '2024-05-14', to: '2025-05-31' } } },
    { windows: { before: { from: '1900-01-01', to: '1900-01-02' }, after: { from: '2199-01-01', to: '2199-12-31' } } },
    { dryBelow: 5 },
    { passMark: { reduction_pct: 50, source: 'x' } },
    { secondary: [{ instrument: 'mw', quantity: 'index', unit: 'points', better: 'lower' }] },
    { adjustments: ['season', 'weather'] },
    { unaffectedAbove_mm: 1000 },
    { claimedField_v_per_m: 1e12 },
    { screened: { walls: 40, mean: 5, standardDeviation: 1e-12, cutoff: 6 }, selection: 'wettest' },
  )
  .map(
    (keys): Mishap =>
      (files) => {
        try {
          files['protocol.json'] = JSON.stringify({
            ...(JSON.parse(textOf(files['protocol.json'])) as object),
            ...keys,
          });
        } catch {
          // No JSON any more.
        }
      },
  );

/** Fewer walls, rows of one wall only, rows in another order, everything twice. */
const otherRows = fc.oneof(
  inTable((cells, where) => cells.splice(1, Math.floor(where * cells.length))),
  inTable((cells) => {
    const [header = [], ...rows] = cells.splice(0);
    cells.push(header, ...rows.reverse());
  }),
  inTable((cells, where) => cells.splice(Math.floor(where * cells.length), 0, ...cells.map((line) => [...line]))),
  inTable((cells) => {
    for (const line of cells) line.push('further');
  }),
  fc.constantFrom('w1', 'w2', 'w3').map(
    (wall): Mishap =>
      (files) => {
        for (const name of tables)
          if (typeof files[name] === 'string')
            files[name] = csvOf(
              cellsOf(files[name]).filter((cells) => !cells.includes(wall)),
              ',',
              '\n',
            );
      },
  ),
);

/** Line ends as editors and joined downloads leave them. */
const otherLineEnds = fc
  .tuple(fc.constantFrom(...tables, 'sensors.csv'), fraction, fc.constantFrom('\r\n', '\r', '\r\r\n', '\n\n', '\u2028'))
  .map(
    ([name, where, end]): Mishap =>
      (files) => {
        const content = textOf(files[name] ?? '');
        const at = Math.floor(where * content.length);
        if (files[name] !== undefined) files[name] = content.slice(0, at) + content.slice(at).replaceAll('\n', end);
      },
  );

/** A log of two sensors, hour by hour, in the folder. */
const withLog: Mishap = (files) => {
  const plan = textOf(files['protocol.json']).replace(
    '"instruments": [',
    '$&{"instrument":"probe","kind":"embedded-sensor"},',
  );
  const rows = Array.from({ length: 120 }, (_, at) => {
    const time = new Date(Date.parse('2024-03-12') + at * 3_600_000).toISOString().slice(0, 16);
    return `${time},${at % 2 === 0 ? 'p1' : 'p2'},${8 + (at % 7) / 10}`;
  });
  files['protocol.json'] = plan;
  files['stations.csv'] = `${String(files['stations.csv'])
    .trimEnd()
    .split('\n')
    .map((line, at) => `${line},${at === 0 ? 'sensor' : at < 3 ? `p${at}` : ''}`)
    .join('\n')}\n`;
  files['sensors.csv'] = `time,sensor,value\n${rows.join('\n')}\n`;
};

let packed: Uint8Array | undefined;
/** The tables in a workbook; made once, for it takes as long as reading it. */
async function workbookOf(files: FolderFiles): Promise<Uint8Array> {
  packed ??= Uint8Array.from(
    await writeWorkbook(sheetsOf(tables.map((name) => [name, cellsOf(String(files[name]))]))).toBuffer(),
  );
  return packed;
}

/** One cell, tag or attribute of a workbook is another. */
const inWorkbook = fc
  .tuple(
    fraction,
    fraction,
    fc.constantFrom(
      ...[
        '<c r="XFD1048576"><v>1</v></c>',
        '<c t="e"/>',
        '<c><f>A1</f></c>',
        '<c t="str"><f>A1</f></c>',
        '<c r="B2" t="s"><v>9999</v></c>',
        '<c><v>x</v></c>',
      ],
      ...[
        '<row r="0"/>',
        '<row r="9999999999"/>',
        '<row/>',
        '<c ',
        '</row>',
        '<!--',
        '<![CDATA[',
        '&#0;',
        '&bad;',
        '<v>1e999</v>',
        's="3"',
        't="b"',
        't="d"',
        '',
      ],
    ),
  )
  .map(
    ([part, where, piece]): Mishap =>
      (files) => {
        const archive = files['trial.xlsx'];
        const parts = archive instanceof Uint8Array ? new Map(openArchive(archive)) : new Map<string, Uint8Array>();
        const name = pick(
          [...parts.keys()].filter((path) => path.endsWith('.xml')),
          part,
        );
        if (name === undefined) return;
        const xml = new TextDecoder().decode(parts.get(name));
        const places = [...xml.matchAll(/<[^<>]*>/g)];
        const at = pick(places, where);
        if (at === undefined) return;
        parts.set(
          name,
          letters.encode(xml.slice(0, at.index) + piece + xml.slice(at.index + (where < 0.5 ? 0 : at[0].length))),
        );
        files['trial.xlsx'] = zipOf(parts);
      },
  );

const mishap = fc.oneof(
  { weight: 4, arbitrary: wholeColumn },
  { weight: 3, arbitrary: renamed },
  { weight: 4, arbitrary: otherPlan },
  { weight: 4, arbitrary: otherRows },
  { weight: 2, arbitrary: otherLineEnds },
);

export interface MangledFolder {
  readonly kind: 'tables' | 'log' | 'workbook';
  readonly files: FolderFiles;
}

/**
 * A folder of tables, with a log, or with a workbook, in which something has gone wrong: what a spreadsheet, an editor, another machine or
 * somebody of ill will would do, often so that the tables still agree with each other.
 */
export async function widelyMangled(): Promise<fc.Arbitrary<MangledFolder>> {
  const whole = validFolder();
  const logged: Files = { ...whole };
  withLog(logged);
  const rest = Object.entries(whole).filter(([name]) => !tables.includes(name));
  const bound: Files = { ...Object.fromEntries(rest), 'trial.xlsx': await workbookOf(whole) };
  const starts = { tables: whole, log: logged, workbook: bound };
  const kinds = fc.oneof(
    { weight: 12, arbitrary: fc.constant('tables' as const) },
    { weight: 2, arbitrary: fc.constant('log' as const) },
    { weight: 3, arbitrary: fc.constant('workbook' as const) },
  );
  return kinds.chain((kind) => {
    const mishaps = fc.array(kind === 'workbook' ? fc.oneof(inWorkbook, otherPlan) : mishap, {
      minLength: 1,
      maxLength: 3,
    });
    const start = fc.oneof(
      { weight: 4, arbitrary: fc.constant<FolderFiles>(starts[kind]) },
      { weight: 1, arbitrary: mangledFolder(starts[kind]) },
    );
    return fc.tuple(start, mishaps).map(([from, changes]) => {
      const files: Files = { ...from };
      for (const change of changes) change(files);
      return { kind, files };
    });
  });
}
