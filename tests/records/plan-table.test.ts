import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import writeWorkbook from 'write-excel-file/node';
import { checkTrial, readTrial } from '../../src/records/index.js';
import { type Edit, editedFolder, put, refusal, remove } from '../helpers/edit-folder.js';
import { planRows } from '../helpers/plan-rows.js';
import { csvOf, sheetsOf } from '../helpers/spellings.js';
import { inFolder, validFolder } from '../helpers/valid-folder.js';

const plan = JSON.parse(validFolder()['protocol.json'] ?? '') as Record<string, unknown>;

/** The valid folder with its plan as a table, some rows changed. */
function withPlan(change: (rows: string[][]) => string[][] = (rows) => rows): Edit {
  return (files) => {
    delete files['protocol.json'];
    files['plan.csv'] = csvOf(change(planRows(plan)), ',', '\n');
  };
}

const answered = (key: string, answer: string) => (rows: string[][]) =>
  rows.map((row) => (row[0] === key ? [key, answer] : row));
const without = (key: string) => (rows: string[][]) => rows.filter((row) => row[0] !== key);
const rowOf = (key: string) => planRows(plan).findIndex((row) => row[0] === key) + 1;

describe('a plan as a table', () => {
  it.each(
    readdirSync(join(import.meta.dirname, '../../datasets')).filter((name) => !/\.|^simulate$|water-up/.test(name)),
  )('is read as protocol.json is: %s', async (name) => {
    const folder = join(import.meta.dirname, '../../datasets', name);
    const json = readFileSync(join(folder, 'protocol.json'), 'utf8');
    const files = Object.fromEntries(
      readdirSync(folder)
        .filter((file) => file.endsWith('.csv'))
        .map((file) => [file, readFileSync(join(folder, file), 'utf8')]),
    );
    const asTable = { ...files, 'plan.csv': csvOf(planRows(JSON.parse(json)), ',', '\n') };
    const trial = await inFolder(asTable, readTrial);
    expect(trial.protocol).toEqual((await readTrial(folder)).protocol);
  });

  it('is read from a sheet, with numbers and dates as such, keys without answers passed over, and no format asked for', async () => {
    const rows = [...without('format')(planRows(plan)), ['marginSource', ''], ['', '']].map((row) => [...row, 'why']);
    const workbook = await writeWorkbook(
      sheetsOf([['Plan', rows.map((row, at) => (at === 0 ? ['key', 'answer', 'why'] : row))]]),
    ).toBuffer();
    const trial = await inFolder(editedFolder(remove('protocol.json'), put('trial.xlsx', workbook)), readTrial);
    expect(trial.protocol).toEqual((await inFolder(validFolder(), readTrial)).protocol);
    expect(trial.source.files[0]).toEqual({ file: 'trial.xlsx / Plan', rows: expect.any(Number) });
  });

  it('may give a list in one cell, a number with a decimal comma and a flag as a word of JSON', async () => {
    const rows = (all: string[][]) =>
      [...without('compare.treated.1')(all), ['compare.treated', 'treated'], ['adjustments', 'season, rain']].map(
        (row) =>
          row[0] === 'confidence'
            ? ['confidence', '0,95']
            : row[0] === 'blinding.readers'
              ? ['blinding.readers', 'TRUE']
              : row,
      );
    const trial = await inFolder(editedFolder(withPlan(rows)), readTrial);
    expect(trial.protocol).toMatchObject({
      confidence: 0.95,
      compare: { treated: ['treated'] },
      adjustments: ['season', 'rain'],
      blinding: { readers: true },
    });
  });

  it.each<readonly [string, (rows: string[][]) => string[][], string]>([
    [
      'a word that is none of them',
      answered('outcome.better', 'lowr'),
      `plan.csv, row ${rowOf('outcome.better')}, column answer: found "lowr" for outcome.better, expected lower or higher; did you mean "lower"?`,
    ],
    ['a key that is not there', without('title'), 'plan.csv, column key: found no key "title", expected a title'],
    [
      'a key below another that is not there',
      without('arms.2.role'),
      'plan.csv, column key: found no key "arms.2.role", expected treated, control or sham',
    ],
    [
      'a key whose answer is blank',
      answered('title', ''),
      `plan.csv, row ${rowOf('title')}, column answer: found no answer to title, expected a title`,
    ],
    [
      'a key in a list whose answer is blank',
      answered('arms.2.role', ''),
      `plan.csv, row ${rowOf('arms.2.role')}, column answer: found no answer to arms.2.role, expected treated, control or sham`,
    ],
    [
      'keys below another, all of them blank',
      (rows) => rows.map(([key = '', answer = '']) => [key, key.startsWith('outcome.') ? '' : answer]),
      `plan.csv, row ${rowOf('outcome.instrument')}, column answer: found no answer to outcome.instrument`,
    ],
    [
      'a slip in a key',
      (rows) => rows.map((row) => (row[0] === 'margin' ? ['margn', '2'] : row)),
      `plan.csv, row ${rowOf('margin')}, column key: found the unknown key "margn", expected one of the keys`,
    ],
    [
      'a number that is a word',
      answered('margin', 'two'),
      `plan.csv, row ${rowOf('margin')}, column answer: found "two" for margin, expected a number above 0, in the unit of the outcome`,
    ],
    [
      'a number that may be two',
      answered('margin', '1,200'),
      `plan.csv, row ${rowOf('margin')}, column answer: found "1,200" for margin, expected a number above 0`,
    ],
    [
      'a day that does not exist',
      answered('windows.before.to', '2024-02-30'),
      `plan.csv, row ${rowOf('windows.before.to')}, column answer: found "2024-02-30" for windows.before.to, expected a day that exists`,
    ],
    [
      'a flag that is none',
      answered('blinding.readers', 'perhaps'),
      `plan.csv, row ${rowOf('blinding.readers')}, column answer: found "perhaps" for blinding.readers, expected yes or no`,
    ],
    [
      'a key twice',
      (rows) => [...rows, ['margin', '3']],
      `plan.csv, row ${planRows(plan).length + 1}, column key: found the key "margin" twice, expected it once`,
    ],
    [
      'an answer above keys of its own',
      (rows) => [...rows, ['outcome', 'moisture']],
      `plan.csv, row ${planRows(plan).length + 1}, column key: found "outcome" above keys of its own, expected an answer to one of the two`,
    ],
    [
      'an answer without a key',
      (rows) => [...rows, ['', 'moisture']],
      `plan.csv, row ${planRows(plan).length + 1}, column key: found an answer without a key`,
    ],
  ])('is refused by row and column: %s', async (_, change, line) => {
    const lines = await refusal(editedFolder(withPlan(change)));
    expect(lines.map((one) => one.slice(0, line.length))).toEqual([line]);
  });

  it('is refused beside protocol.json', async () => {
    const both = editedFolder(put('plan.csv', csvOf(planRows(plan), ',', '\n')));
    expect(await refusal(both)).toEqual([
      'plan.csv: found a second plan beside protocol.json, expected one of the two',
    ]);
  });

  it('names itself where tables are held against it', async () => {
    const files = editedFolder(withPlan(), (all) => {
      all['walls.csv'] = String(all['walls.csv']).replace('w1,treated', 'w1,contol');
    });
    expect(await refusal(files)).toEqual([
      'walls.csv, row 2, column arm: found "contol", expected an arm of plan.csv: treated or control; did you mean "control"?',
    ]);
  });

  it('counts in the fingerprint', async () => {
    const of = async (...edits: Edit[]) => (await inFolder(editedFolder(...edits), readTrial)).source.fingerprint;
    expect(await of(withPlan())).not.toBe(await of(withPlan(answered('title', 'Another'))));
  });
});

describe('the ledger of a folder', () => {
  it('says what was understood of the valid folder, and that nothing was left', async () => {
    const { ledger } = await inFolder(validFolder(), checkTrial);
    expect(ledger.notUsed).toEqual([]);
    expect(ledger.mended).toEqual([]);
    expect(ledger.tables.map(({ file, rows }) => [file, rows])).toContainEqual(['walls.csv', 4]);
    expect(ledger.tables.find(({ table }) => table === 'cores')?.columns).toContainEqual({
      heading: 'wet_g',
      as: 'wet_g',
      unit: 'g',
    });
  });

  it('names columns, rows and instruments that were not used', async () => {
    const files = editedFolder((all) => {
      const [header = '', ...rows] = String(all['walls.csv']).trim().split('\n');
      all['walls.csv'] = [
        'Walls of Mill Lane',
        '',
        `${header},Owner`,
        ...rows.map((row) => `${row},A. N. Other`),
        'Total,,,,,4,,',
      ].join('\n');
      all['protocol.json'] = String(all['protocol.json']).replace(
        '"instruments": [',
        '"instruments": [{ "instrument": "volt", "kind": "direct" },',
      );
    });
    const { ledger, kind } = await inFolder(files, checkTrial);
    expect(kind).toBe('trial');
    expect(ledger.notUsed).toEqual([
      { kind: 'rows', file: 'walls.csv', what: 'above the header', rows: [1] },
      { kind: 'rows', file: 'walls.csv', what: 'totals', rows: [8] },
      { kind: 'column', file: 'walls.csv', column: 'Owner', cells: 4, isListed: false },
      { kind: 'instrument', instrument: 'volt' },
    ]);
  });

  it('is there for a folder that is refused, and names its sheets', async () => {
    const workbook = await writeWorkbook(
      sheetsOf([
        [
          'Logger',
          [
            ['a', 'b'],
            ['1', '2'],
          ],
        ],
      ]),
    ).toBuffer();
    const { ledger, kind } = await inFolder(editedFolder(put('trial.xlsx', workbook), remove('walls.csv')), checkTrial);
    expect(kind).toBe('problems');
    expect(ledger.notUsed).toEqual([{ kind: 'sheet', file: 'trial.xlsx', sheet: 'Logger', isListed: false }]);
    expect(ledger.tables.map(({ table }) => table)).toContain('cores');
  });
});
