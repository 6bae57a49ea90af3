import { expect, it } from 'vitest';
import writeWorkbook, { type Sheet } from 'write-excel-file/node';
import { openArchive } from '../../src/records/folder/open-archive.js';
import { type Edit, editedFolder, put, refusal } from '../helpers/edit-folder.js';
import { cellsOf, sheetsOf } from '../helpers/spellings.js';
import { validFolder } from '../helpers/valid-folder.js';
import { zipOf } from '../helpers/zip-of.js';

type Change = (sheets: Sheet<never>[]) => void;

/** The valid folder with some of its tables in a workbook instead. */
async function withWorkbook(tables: readonly string[], change: Change = () => {}, edits: readonly Edit[] = []) {
  const whole = validFolder();
  const sheets = sheetsOf(tables.map((name) => [name, cellsOf(whole[name] ?? '')]));
  change(sheets);
  const workbook = Uint8Array.from(await writeWorkbook(sheets).toBuffer());
  return editedFolder(
    put('trial.xlsx', workbook),
    (files) => {
      for (const name of tables) delete files[name];
    },
    ...edits,
  );
}

const setCell =
  (row: number, column: number, value: unknown): Change =>
  (sheets) => {
    const cells = sheets[0]?.data[row - 1];
    if (cells?.[column] === undefined) throw new Error(`the sheet has no cell ${row}, ${column}`);
    cells[column] = value as never;
  };

const cases: readonly [string, readonly string[], Change, readonly Edit[], readonly string[]][] = [
  [
    'an unknown wall',
    ['readings.csv'],
    setCell(3, 1, 'w9'),
    [],
    ['trial.xlsx / readings, row 3, column wall: found "w9", expected a wall of walls.csv: w1, w2, w3 or w4'],
  ],
  [
    'a date in text',
    ['readings.csv'],
    setCell(3, 0, '31.2.2024'),
    [],
    [
      'trial.xlsx / readings, row 3, column date: found "31.2.2024", expected a day that exists: February 2024 has 29 days',
    ],
  ],
  [
    'a number where a date belongs',
    ['readings.csv'],
    setCell(3, 0, 45363),
    [],
    [
      'trial.xlsx / readings, row 3, column date: found "45363", expected a date as YYYY-MM-DD, such as 2024-03-01, or with a time, such as 2024-03-01T08:30',
    ],
  ],
  [
    'the zero of its calendar',
    ['readings.csv'],
    setCell(3, 0, { value: new Date(Date.UTC(1899, 11, 31)), type: Date, format: 'yyyy-mm-dd' }),
    [],
    ['trial.xlsx / readings, row 3, column date: found "1899-12-31", expected a year from 1900 to 2199'],
  ],
  [
    'a truth value for a word',
    ['readings.csv'],
    setCell(3, 6, true),
    [],
    ['trial.xlsx / readings, row 3, column knew_arm: found "true", expected yes, no or unsure'],
  ],
  [
    'a value in text with a thousands separator',
    ['readings.csv'],
    setCell(3, 4, '1,045'),
    [],
    ['trial.xlsx / readings, row 3, column value: found "1,045", expected a number without thousands separators'],
  ],
  [
    'a table both as a sheet and as CSV',
    ['walls.csv'],
    () => {},
    [put('walls.csv', validFolder()['walls.csv'] ?? '')],
    [
      'trial.xlsx / walls: found the table walls both here and in walls.csv, expected each table once, as a CSV file or as a sheet',
    ],
  ],
  [
    'two sheets for a table',
    ['diary.csv'],
    (sheets) => sheets.push({ ...(sheets[0] as Sheet<never>), sheet: 'diary.csv' }),
    [],
    ['trial.xlsx / diary.csv: found a second sheet for diary, expected one sheet a table'],
  ],
  [
    'a sheet with a slip in its name',
    ['readings.csv'],
    (sheets) => {
      (sheets[0] as Sheet<never>).sheet = 'Reading';
    },
    [],
    [
      'trial.xlsx: found a sheet "Reading", expected sheets named walls, stations, readings, cores, batches, climate, salts, blinding, checks, injection, trays, electrical, diary; any other sheet needs a name less like one of these; did you mean "readings"?',
    ],
  ],
  [
    'an empty sheet',
    ['walls.csv'],
    (sheets) => {
      (sheets[0] as Sheet<never>).data = [];
    },
    [],
    ['trial.xlsx / walls: found an empty table, expected a header row with at least the columns wall, arm'],
  ],
  [
    'a needed column left out',
    ['cores.csv'],
    setCell(1, 5, 'weight'),
    [],
    [
      'trial.xlsx / cores, row 1, column wet_g: found no such column in the header "date, wall, station, sample, container_g, weight, dry_g, hum…", expected the columns date, wall, wet_g, dry_g',
    ],
  ],
];

it.each(cases)('checkTrial(folder) refuses a workbook with %s', async (_, tables, change, edits, lines) => {
  expect(await refusal(await withWorkbook(tables, change, edits))).toEqual(lines);
});

it('checkTrial(folder) refuses a second workbook', async () => {
  const files = await withWorkbook(['walls.csv']);
  expect(await refusal({ ...files, 'copy.xlsx': files['trial.xlsx'] ?? '' })).toEqual([
    'trial.xlsx: found 2 workbooks in one folder: copy.xlsx, trial.xlsx, expected at most one .xlsx file, with one sheet a table',
  ]);
});

const sealed = [
  'trial.xlsx: found a file that is damaged, cut off or no workbook, expected a workbook in .xlsx format that opens',
];

it('checkTrial(folder) refuses a workbook cut off anywhere', async () => {
  const files = await withWorkbook(['walls.csv']);
  const workbook = files['trial.xlsx'] as Uint8Array;
  for (const share of [0.001, 0.3, 0.6, 0.99]) {
    const cut = { ...files, 'trial.xlsx': workbook.slice(0, Math.ceil(share * workbook.length)) };
    expect(await refusal(cut)).toEqual(sealed);
  }
  expect(await refusal({ ...files, 'trial.xlsx': '' })).toEqual([
    'trial.xlsx: found an empty file, expected a workbook in .xlsx format that opens',
  ]);
});

it('checkTrial(folder) refuses a workbook with a byte of its content changed', async () => {
  const files = await withWorkbook(['walls.csv']);
  const workbook = files['trial.xlsx'] as Uint8Array;
  const sheet = Buffer.from(workbook).indexOf('xl/worksheets/sheet1.xml') + 24;
  for (let at = sheet; at < sheet + 200; at += 9) {
    const damaged = workbook.slice();
    damaged[at] = (damaged[at] ?? 0) ^ 0x10;
    expect(await refusal({ ...files, 'trial.xlsx': damaged }), `byte ${at}`).toEqual(sealed);
  }
});

it('checkTrial(folder) refuses a workbook of the older kind or with a password', async () => {
  const older = Uint8Array.from([0xd0, 0xcf, 0x11, 0xe0, 0xa1, 0xb1, 0x1a, 0xe1]);
  expect(await refusal(editedFolder(put('trial.xlsx', older)))).toEqual([
    'trial.xlsx: found a workbook of the older kind (.xls), or one with a password, expected a workbook in .xlsx format that opens',
  ]);
});

it('checkTrial(folder) refuses another packed file under the name of a workbook', async () => {
  const letter = zipOf(new Map([['word/document.xml', new TextEncoder().encode('<document/>')]]));
  expect(await refusal(editedFolder(put('trial.xlsx', letter)))).toEqual(sealed);
});

it('checkTrial(folder) refuses a formula that came to no value, which is no missing value', async () => {
  const files = await withWorkbook(['walls.csv', 'readings.csv']);
  const parts = new Map(openArchive(files['trial.xlsx'] as Uint8Array));
  const sheet = new TextDecoder().decode(parts.get('xl/worksheets/sheet2.xml'));
  const broken = sheet.replace(/<c r="E7"[^>]*>.*?<\/c>/, '<c r="E7" t="e"><f>1/0</f><v>#DIV/0!</v></c>');
  expect(broken).not.toBe(sheet);
  parts.set('xl/worksheets/sheet2.xml', new TextEncoder().encode(broken));
  expect(await refusal({ ...files, 'trial.xlsx': zipOf(parts) })).toEqual([
    'trial.xlsx / readings, row 7, column value: found the formula error "#DIV/0!", expected a value, NA or nothing',
  ]);
});
