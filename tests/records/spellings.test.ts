import { describe, expect, it } from 'vitest';
import writeWorkbook from 'write-excel-file/node';
import { readTrial } from '../../src/records/index.js';
import type { Trial } from '../../src/trial/index.js';
import { cellsOf, csvOf, sheetsOf } from '../helpers/spellings.js';
import { type FolderFiles, inFolder, validFolder } from '../helpers/valid-folder.js';

/** The trial without the traces of how its files were written. */
async function contentOf(files: FolderFiles): Promise<unknown> {
  const { source, ...content } = await inFolder(files, readTrial);
  return JSON.parse(JSON.stringify(content), (key, value) => (key === 'file' ? undefined : value));
}

function tables(): [string, string[][]][] {
  return Object.entries(validFolder())
    .filter(([name]) => name.endsWith('.csv'))
    .map(([name, text]) => [name, cellsOf(text)]);
}

function respelt(spell: (name: string, cells: string[][]) => string | Uint8Array): FolderFiles {
  const files: Record<string, string | Uint8Array> = { ...validFolder() };
  for (const [name, cells] of tables()) files[name] = spell(name, cells);
  return files;
}

const decimalComma = (cells: string[][]) =>
  cells.map((row) => row.map((cell) => cell.replace(/^(<?-?\d+)\.(\d+)$/, '$1,$2')));

describe('readTrial(folder) gives the same trial for the same content', () => {
  it('with semicolons and decimal commas', async () => {
    const files = respelt((_, cells) => csvOf(decimalComma(cells), ';', '\n'));
    expect(files['readings.csv']).toContain(';60,5;');
    expect(await contentOf(files)).toEqual(await contentOf(validFolder()));
  });

  it('with semicolons and decimal points', async () => {
    const files = respelt((_, cells) => csvOf(cells, ';', '\n'));
    expect(await contentOf(files)).toEqual(await contentOf(validFolder()));
  });

  it('with commas and quoted decimal commas', async () => {
    const files = respelt((_, cells) => csvOf(decimalComma(cells), ',', '\n'));
    expect(files['readings.csv']).toContain(',"60,5",');
    expect(await contentOf(files)).toEqual(await contentOf(validFolder()));
  });

  it('with a byte-order mark and CRLF', async () => {
    const files = respelt((_, cells) => `\uFEFF${csvOf(cells, ',', '\r\n')}`);
    expect(await contentOf(files)).toEqual(await contentOf(validFolder()));
  });

  it('with every cell in quotes, blanks around the cells, no line end at the end', async () => {
    const quotedAll = respelt((_, cells) =>
      cells.map((row) => row.map((cell) => `" ${cell.replaceAll('"', '""')} "`).join()).join('\n'),
    );
    expect(await contentOf(quotedAll)).toEqual(await contentOf(validFolder()));
  });

  it('with the line ends of old machines, a carriage return alone', async () => {
    const files = respelt((_, cells) => csvOf(cells, ',', '\n').replaceAll('\n', '\r'));
    expect(await contentOf(files)).toEqual(await contentOf(validFolder()));
  });

  it('with accents typed as one character in one file and as two in another', async () => {
    const named = (form: string) => (text: string) => text.replaceAll('w1', `b\u00fcro`.normalize(form));
    const { 'walls.csv': walls = '', ...others } = validFolder();
    const rest = Object.fromEntries(Object.entries(others).map(([name, text]) => [name, named('NFD')(text)]));
    const trial = await inFolder({ ...rest, 'walls.csv': named('NFC')(walls) }, readTrial);
    expect(trial.readings[0]?.wall).toBe(trial.walls[0]?.wall);
  });

  it('as a workbook with numbers and dates as such', async () => {
    const workbook = await writeWorkbook(sheetsOf(tables())).toBuffer();
    const { 'protocol.json': protocol = '' } = validFolder();
    expect(await contentOf({ 'protocol.json': protocol, 'trial.xlsx': workbook })).toEqual(
      await contentOf(validFolder()),
    );
  });

  it('as a workbook beside CSV files', async () => {
    const cores = tables().filter(([name]) => name === 'cores.csv');
    const { 'cores.csv': _, ...others } = validFolder();
    const workbook = await writeWorkbook(sheetsOf(cores)).toBuffer();
    expect(await contentOf({ ...others, 'masses.xlsx': workbook })).toEqual(await contentOf(validFolder()));
  });
});

describe('readTrial(folder) says how the files were written', () => {
  const filesOf = async (files: FolderFiles): Promise<Trial['source']['files']> =>
    (await inFolder(files, readTrial)).source.files;

  it('commas and points', async () => {
    expect(await filesOf(validFolder())).toContainEqual({
      file: 'cores.csv',
      rows: 33,
      separator: 'comma',
      decimal: 'point',
    });
  });

  it('semicolons and decimal commas, each file for itself', async () => {
    const files = respelt((name, cells) =>
      name === 'cores.csv' ? csvOf(decimalComma(cells), ';', '\n') : csvOf(cells, ',', '\n'),
    );
    const source = await filesOf(files);
    expect(source).toContainEqual({ file: 'cores.csv', rows: 33, separator: 'semicolon', decimal: 'comma' });
    expect(source).toContainEqual({ file: 'readings.csv', rows: 35, separator: 'comma', decimal: 'point' });
  });

  it('no decimal mark where no number has a fraction, no separator in a workbook', async () => {
    const { 'cores.csv': _, ...others } = validFolder();
    const cores = tables().filter(([name]) => name === 'cores.csv');
    const workbook = await writeWorkbook(sheetsOf(cores)).toBuffer();
    const source = await filesOf({
      ...others,
      'stations.csv': 'station,wall\nlow,w1\nhigh,w1\nlow,w2\nhigh,w2\nlow,w3\nhigh,w3\nlow,w4\nhigh,w4\n',
      'masses.xlsx': workbook,
    });
    expect(source).toContainEqual({ file: 'stations.csv', rows: 8, separator: 'comma' });
    expect(source).toContainEqual({ file: 'masses.xlsx / cores', rows: 33 });
  });
});
