import type { Blob } from 'node:buffer';
import type { Stream } from 'node:stream';
import type { Cell, CellObject, Feature, Sheet } from 'write-excel-file/node';
import type { CellRule, FormCell, FormColumn, FormSheet } from './form-sheet.js';
import { withoutTimes } from './without-times.js';

/** What the library takes as the content of a file; it does not export the type. */
type FileContent = Blob | Buffer | Stream;

const headingColour = '#dde5ea';
const keyColour = '#f2f2f2';
const dayFormat = 'yyyy-mm-dd';
/** Day cells are made ready by their style, a row each. */
const readyDays = 400;

/**
 * The bytes of a workbook (`.xlsx`): headings frozen, days shown as year, month and day, notes beside the selected cell, lists where a
 * word is expected. The same sheets give the same bytes.
 *
 * The library knows neither notes nor lists, and takes both as a feature of ours (ECMA-376 part 1, section 18.3.1.32).
 */
export async function writeWorkbook(sheets: readonly FormSheet[]): Promise<Uint8Array> {
  const [{ default: write }, utility] = await Promise.all([
    import('write-excel-file/node'),
    import('write-excel-file/utility'),
  ]);
  const order = utility.getOrderOfSiblings('xl/worksheets/sheet{id}.xml', 'worksheet') ?? [];
  const notesAndLists: Feature<FileContent> = {
    files: {
      transform: {
        'xl/worksheets/sheet{id}.xml': {
          transform: (xml, _options, { sheetIndex }) => {
            const rules = sheets[sheetIndex]?.rules ?? [];
            if (rules.length === 0) return xml;
            const markup = rulesXml(
              rules,
              utility.getCellAddress,
              utility.sanitizeAttributeValue,
              utility.sanitizeTextContent,
            );
            return utility.insertElementMarkupAccordingToOrderOfSiblings(xml, markup, order, 'worksheet');
          },
        },
      },
    },
  };
  const buffer = await write(sheets.map(librarySheet), { features: [notesAndLists] }).toBuffer();
  return new Uint8Array(withoutTimes(buffer));
}

function librarySheet({ name, columns, rows }: FormSheet): Sheet<FileContent> {
  const headings = columns.map(
    ({ heading, needed }): Cell => ({
      value: heading,
      backgroundColor: headingColour,
      ...(needed ? { fontWeight: 'bold' as const } : {}),
    }),
  );
  const filled = rows.map((row) => columns.map((column, index) => libraryCell(row[index] ?? '', column)));
  const hasDays = columns.some(({ look }) => look === 'day');
  const blank = Array.from({ length: hasDays ? Math.max(0, readyDays - rows.length) : 0 }, () =>
    columns.map((column) => libraryCell('', column)),
  );
  return {
    data: [headings, ...filled, ...blank],
    sheet: name,
    columns: columns.map(({ width }) => ({ width })),
    stickyRowsCount: 1,
  };
}

function libraryCell(cell: FormCell, { look }: FormColumn): Cell {
  if (typeof cell === 'object' && !(cell instanceof Date)) {
    if (cell.look === 'day') return dayCell(cell.value);
    return { ...plainCell(cell.value), backgroundColor: keyColour, alignVertical: 'top' };
  }
  if (cell instanceof Date || look === 'day') return dayCell(cell);
  return look === 'prose' && cell !== ''
    ? { ...plainCell(cell), wrap: true, alignVertical: 'top' }
    : cell === ''
      ? null
      : plainCell(cell);
}

function dayCell(value: string | number | Date): CellObject {
  if (value === '') return { type: Date, format: dayFormat };
  return value instanceof Date ? { value, type: Date, format: dayFormat } : plainCell(value);
}

function plainCell(value: string | number | Date): CellObject {
  return { value };
}

/** What a workbook may hold at most in a title, a note and a list of words (ECMA-376 and the usual spreadsheet programs). */
const mostTitle = 32;
const mostNote = 255;

function rulesXml(
  rules: readonly CellRule[],
  address: (row: number, column: number) => string,
  attribute: (text: string) => string,
  content: (text: string) => string,
): string {
  const each = rules.map(({ column, firstRow, lastRow, title, note, choices }) => {
    const cells = `${address(firstRow - 1, column)}:${address(lastRow - 1, column)}`;
    const said = `promptTitle="${attribute(title.slice(0, mostTitle))}" prompt="${attribute(note.slice(0, mostNote))}"`;
    const common = `allowBlank="1" showInputMessage="1" ${said} sqref="${cells}"`;
    if (choices === undefined) return `<dataValidation ${common}/>`;
    const list = choices.kind === 'words' ? `"${choices.words.join(',')}"` : choices.cells;
    // Of names another may be right, such as one that is written down later: the list then only offers.
    const strict = choices.kind === 'words' ? 'showErrorMessage="1" ' : '';
    return `<dataValidation type="list" ${strict}${common}><formula1>${content(list)}</formula1></dataValidation>`;
  });
  return `<dataValidations count="${rules.length}">${each.join('')}</dataValidations>`;
}
