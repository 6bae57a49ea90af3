import { guideSheetName } from '../../forms/guide-sheet.js';
import { paragraph, quoted, type Section, type Table } from '../../report/document.js';
import {
  type ColumnRead,
  describeMended,
  describeNotUsed,
  type NotUsed,
  type ReadingLedger,
  type TableRead,
} from '../../trial/index.js';
import { countInWords } from '../../words/quantity.js';

/** What each table and column was taken for, and what was mended. */
export function understoodSection({ tables, mended }: ReadingLedger): Section {
  const table: Table = {
    kind: 'table',
    caption: 'Tables as they were understood',
    columns: [
      { header: 'File' },
      { header: 'As' },
      { header: 'Header in row', look: 'number' },
      { header: 'Rows', look: 'number' },
      { header: 'Columns', look: 'prose' },
    ],
    rows: tables.map((one) => [
      [quoted(one.file)],
      [one.table],
      [`${one.headerRow}`],
      [`${one.rows}`],
      [quoted(`${one.columns.map(columnInWords).join(', ')}${decimalInWords(one)}`)],
    ]),
  };
  const said = mended.map((one) => [quoted(describeMended(one))]);
  return {
    id: 'understood',
    heading: 'What was understood',
    blocks: [
      table,
      ...(said.length === 0
        ? []
        : [paragraph('What could be read in one way only was read so:'), { kind: 'list' as const, items: said }]),
    ],
  };
}

function columnInWords({ heading, as, unit, dateOrder }: ColumnRead): string {
  const more = [
    // A column under its own name says its unit itself.
    ...(unit === undefined || heading === as ? [] : [unit]),
    ...(dateOrder === undefined ? [] : [dateOrder === 'day-first' ? 'day before month' : 'month before day']),
  ];
  const name = heading === as ? as : `${heading} as ${as}`;
  return more.length === 0 ? name : `${name} (${more.join(', ')})`;
}

function decimalInWords({ decimal }: TableRead): string {
  return decimal === undefined ? '' : `; decimal ${decimal}`;
}

/** What the reader passed over, so that nothing is dropped in silence. */
export function notUsedSection({ notUsed }: ReadingLedger): Section {
  const own = notUsed.filter((one) => !isGuide(one));
  return {
    id: 'not-used',
    heading: 'What was not used',
    blocks:
      own.length === 0
        ? [paragraph('Everything in the folder that a trial can hold was used.')]
        : [
            paragraph(`${countInWords(own.length, 'thing')} in the folder will not reach the opinion:`),
            { kind: 'list', items: own.map((one) => [quoted(describeNotUsed(one))]) },
          ],
  };
}

/** The sheet that explains the columns, which the workbook of `fairwall new` brings along. */
function isGuide(one: NotUsed): boolean {
  return one.kind === 'sheet' && one.sheet === guideSheetName;
}
