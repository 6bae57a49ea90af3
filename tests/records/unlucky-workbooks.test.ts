import { describe, expect, it } from 'vitest';
import writeWorkbook from 'write-excel-file/node';
import { openArchive } from '../../src/records/folder/open-archive.js';
import { showsPerCent } from '../../src/records/folder/workbook-layout.js';
import { checkTrial } from '../../src/records/index.js';
import { refusal } from '../helpers/edit-folder.js';
import { cellsOf, sheetsOf } from '../helpers/spellings.js';
import { swept } from '../helpers/sweep.js';
import { type FolderFiles, inFolder, validFolder } from '../helpers/valid-folder.js';
import { zipOf } from '../helpers/zip-of.js';

const whole = validFolder();
const names = ['walls.csv', 'readings.csv', 'cores.csv'];
const walls = 'xl/worksheets/sheet1.xml';
const readings = 'xl/worksheets/sheet2.xml';
const notes = 'xl/worksheets/sheet4.xml';
const letters = new TextEncoder();

/** The valid folder with three of its tables and a sheet of notes in a workbook, of which some parts are changed. */
async function withParts(changes: Readonly<Record<string, (xml: string) => string>>): Promise<FolderFiles> {
  const sheets = sheetsOf(names.map((name) => [name, cellsOf(whole[name] ?? '')]));
  sheets.push({ sheet: 'notes', data: [[{ value: 'a note', type: String }]] as never });
  const parts = new Map(openArchive(Uint8Array.from(await writeWorkbook(sheets).toBuffer())));
  for (const [part, change] of Object.entries(changes)) {
    const xml = new TextDecoder().decode(parts.get(part));
    const changed = change(xml);
    expect(changed, part).not.toBe(xml);
    parts.set(part, letters.encode(changed));
  }
  const others = Object.entries(whole).filter(([name]) => !names.includes(name));
  return { ...Object.fromEntries(others), 'trial.xlsx': zipOf(parts) };
}

/** Puts another cell in the place of one. */
const cell = (place: string, by: string) => (xml: string) =>
  xml.replace(new RegExp(`<c r="${place}"[^>]*(?:/>|>.*?</c>)`), () => by);
const lastRow = (xml: string) => (row: string) => xml.replace('</sheetData>', `${row}</sheetData>`);

async function values(files: FolderFiles) {
  const check = await inFolder(files, checkTrial);
  if (check.kind === 'problems') throw new Error(check.problems.map(({ found }) => found).join('\n'));
  return check.trial;
}

describe('a number shown as per cent', () => {
  /** Adds a style as the last one, and names it. */
  const styled = async (format: string, formatCode = '') => {
    let style = 0;
    const files = await withParts({
      'xl/styles.xml': (xml) => {
        const added =
          formatCode === ''
            ? xml
            : xml.replace(/<numFmts[^>]*>/, `$&<numFmt numFmtId="${format}" formatCode="${formatCode}"/>`);
        return added.replace(/<cellXfs[^>]*>(.*?)<\/cellXfs>/s, (all, inside: string) => {
          style = [...inside.matchAll(/<xf[\s>]/g)].length;
          return all.replace('</cellXfs>', `<xf numFmtId="${format}"/></cellXfs>`);
        });
      },
    });
    const parts = new Map(openArchive(files['trial.xlsx'] as Uint8Array));
    const xml = new TextDecoder().decode(parts.get(readings));
    parts.set(readings, letters.encode(cell('E7', `<c r="E7" s="${style}"><v>0.149</v></c>`)(xml)));
    return { ...files, 'trial.xlsx': zipOf(parts) };
  };

  it.each([
    ['9', ''],
    ['10', ''],
    ['190', '0.0%'],
    ['190', '[Red]0.00\\ %;-0%'],
  ])('is refused as it is shown, by format %s %s', async (format, code) => {
    expect(await refusal(await styled(format, code))).toEqual([
      'trial.xlsx / readings, row 7, column value: found "14.9% shown for 0.149", expected a number, a detection limit such as <0.5, NA or nothing',
    ]);
  });

  it.each([
    ['2', ''],
    ['190', '0.0&quot;%&quot;'],
    ['190', '0.0\\%'],
  ])('is the number itself where the sign is a mere letter: format %s %s', async (format, code) => {
    const { readings } = await values(await styled(format, code));
    expect(readings[5]?.value).toEqual({ kind: 'measured', value: 0.149 });
  });

  it('showsPerCent(formatCode)', () => {
    expect(['0%', '0.00%;[Red]-0.00%', '#,##0 %'].map(showsPerCent)).toEqual([true, true, true]);
    expect(['0', '0.0"%"', '0\\%', '[$%-409]0', '_%0'].map(showsPerCent)).toEqual([false, false, false, false, false]);
  });
});

describe('a formula', () => {
  it.each([
    ['without a value', '<c r="E7"><f>B2*1.05</f></c>', 'the formula "=B2*1.05" whose value is not stored'],
    ['with an empty number', '<c r="E7"><f>B2*1.05</f><v></v></c>', 'the formula "=B2*1.05" whose value is not stored'],
    [
      'with an empty number, closing itself',
      '<c r="E7"><f>B2&lt;3</f><v/></c>',
      'the formula "=B2<3" whose value is not stored',
    ],
    ['of a text, without a value', '<c r="E7" t="str"><f>A1</f></c>', 'the formula "=A1" whose value is not stored'],
    ['shared with another cell', '<c r="E7"><f t="shared" si="0"/></c>', 'a formula whose value is not stored'],
    ['in error', '<c r="E7" t="e"><f>1/0</f><v>#DIV/0!</v></c>', 'the formula error "#DIV/0!"'],
    ['in error, closing itself', '<c r="E7" t="e"/>', 'the formula error "#VALUE!"'],
  ])('%s is refused', async (_, xml, found) => {
    const lines = await refusal(await withParts({ [readings]: cell('E7', xml) }));
    expect(lines).toEqual([expect.stringContaining(`found ${found}, expected a value, NA or nothing`)]);
    expect(lines[0]).toMatch(/^trial\.xlsx \/ readings, row 7, column (?:value|number 5): /);
  });

  it('with its value is that value; one that came to an empty text is a missing value', async () => {
    const stored = await values(await withParts({ [readings]: cell('E7', '<c r="E7"><f>B2*1.05</f><v>14.9</v></c>') }));
    expect(stored.readings[5]?.value).toEqual({ kind: 'measured', value: 14.9 });
    const empty = await values(await withParts({ [readings]: cell('E7', '<c r="E7" t="str"><f>A9</f><v></v></c>') }));
    expect(empty.readings[5]?.value).toEqual({ kind: 'missing' });
  });
});

describe('days counted from 1904', () => {
  it.each(['1', 'true', 'false', '0'])('date1904="%s"', async (said) => {
    const from1904 = said === '1' || said === 'true';
    const shifted = (xml: string) =>
      xml.replaceAll(/<v>(4[45]\d{3}(?:\.\d+)?)<\/v>/g, (_, day: string) => `<v>${Number(day) - 1462}</v>`);
    const files = await withParts({
      'xl/workbook.xml': (xml) => xml.replace(/<workbookPr[^>]*>/, `<workbookPr date1904="${said}"/>`),
      ...(from1904 ? { [walls]: shifted, [readings]: shifted, 'xl/worksheets/sheet3.xml': shifted } : {}),
    });
    const trial = await values(files);
    expect([trial.walls[0]?.treatedOn, trial.readings[0]?.date]).toEqual(['2024-06-03', '2024-03-12']);
    expect(trial.cores[8]?.date).toBe('2024-05-14T09:30');
  });
});

describe('a stray cell', () => {
  const far = (place: string) => (xml: string) =>
    lastRow(xml)(`<row r="${place.replace(/\D/g, '')}"><c r="${place}"><v>1</v></c></row>`);

  it.each(['XFD1048576', 'ZZZZZZ999999999', 'XFD20000'])(
    'in %s of a sheet that is none of the tables does not matter',
    async (place) => {
      expect(await refusal(await withParts({ [notes]: far(place) }))).toEqual([]);
    },
  );

  it('at the end of a table is named', async () => {
    expect(await refusal(await withParts({ [readings]: far('XFD1048576') }))).toEqual([
      'trial.xlsx / readings: found a table that reaches as far as cell XFD1048576, 1048576 rows by 16384 columns, expected at most 10000000 cells; a stray cell may stand far from the others',
    ]);
    expect(await refusal(await withParts({ [readings]: far('ZZZZZZ999999999') }))).toEqual([
      expect.stringMatching(
        /^trial\.xlsx \/ readings: found 999999999 rows and \d+ columns, expected at most 1048576 rows/,
      ),
    ]);
  });

  it('without a value is no end', async () => {
    const style = (xml: string) => lastRow(xml)('<row r="1048576"><c r="XFD1048576" s="1"/></row>');
    expect(await refusal(await withParts({ [readings]: style }))).toEqual([]);
  });
});

describe('a workbook made to exhaust', () => {
  const changes: readonly (readonly [of: string, change: (xml: string) => string, message: RegExp])[] = [
    [
      'blanks',
      (xml: string) => xml.replace('<sheetData>', `${' '.repeat(140_000_000)}<sheetData>`),
      /trial\.xlsx: found .*unpack to far more/,
    ],
    ['rows', (xml: string) => lastRow(xml)('<row/>'.repeat(1_200_000)), /readings: found 1200\d+ rows/],
    [
      'a good many empty rows',
      (xml: string) => lastRow(xml)('<row/>'.repeat(200_000)),
      /readings: found 2000\d+ rows with/,
    ],
    [
      'a good many blanks',
      (xml: string) => xml.replace('<sheetData>', `${' '.repeat(20_000_000)}<sheetData>`),
      /readings: found \d+ rows with/,
    ],
    [
      'cells in error',
      (xml: string) => lastRow(xml)(`<row r="99">${'<c t="e"/>'.repeat(16_000)}</row>`),
      /the formula error/,
    ],
    ['tags that never end', (xml: string) => lastRow(xml)('<c '.repeat(300_000)), /trial\.xlsx/],
  ];
  // A good many of them take a quarter of a second, so many two.
  const tried = swept(changes, ([of]) => of !== 'blanks' && of !== 'rows');
  it.each(tried)('of %s is refused, soon', async (_, change, message) => {
    const files = await withParts({ [readings]: change });
    const before = performance.now();
    const lines = await refusal(files);
    expect(lines[0]).toMatch(message);
    expect(performance.now() - before).toBeLessThan(8000);
  });
});

describe('a sheet that the reader gives up on is named', () => {
  it.each([
    ['a number with text in it', cell('E7', '<c r="E7"><v>abc</v></c>')],
    ['a text that is not in the list of texts', cell('B7', '<c r="B7" t="s"><v>99999</v></c>')],
  ])('%s', async (_, change) => {
    expect(await refusal(await withParts({ [readings]: change }))).toEqual([
      expect.stringMatching(/^trial\.xlsx \/ readings, row 7, column number \d: found a cell that does not hold/),
    ]);
  });

  it('control characters, by their escapes', async () => {
    const forged = cell('B7', '<c r="B7" t="inlineStr"><is><t>w1_x001B_[2J</t></is></c>');
    const lines = await refusal(await withParts({ [readings]: forged }));
    expect(lines[0]).toMatch(
      /^trial\.xlsx \/ readings, row 7, column wall: found "w1\\u001b\[2J", expected text without control/,
    );
  });
});
