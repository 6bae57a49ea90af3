import { present } from '../../plain/present.js';
import type { DateOrder, Problem } from '../../trial/index.js';
import { decimalMark } from '../folder/decimal-mark.js';
import { ordersOfDates } from '../folder/orders-of-dates.js';
import type { ReadingNotes } from '../folder/reading-notes.js';
import type { Records } from '../folder/records.js';
import type { Table, TableRow } from '../folder/table.js';
import { plainName } from '../folder/table-naming.js';
import { quoted } from '../quoted.js';

const labels = ['wall', 'date', 'instrument', 'reader', 'knew_arm', 'depth_mm', 'lead'] as const;
const needed = ['wall', 'date', 'instrument'] as const;
const columns = [...labels, 'height_mm', 'position_mm', 'value'] as const;

/** What a block has said of itself so far, by label. */
type Head = Map<string, string>;

/**
 * A survey as it is written down on the spot, a block a wall and day: labels and what they say (`wall`, `W01`, `date`, `2024-03-12`, …), then a
 * row that begins with `height_mm` and goes on with positions along the wall, then a row a height. Gives the rows of a table of readings.
 */
export function gridTable(
  records: Records,
  dateOrder: DateOrder | undefined,
  notes: ReadingNotes,
  problems: Problem[],
): Table {
  const file = records.place;
  const rows: TableRow[] = [];
  const others: number[] = [];
  let head: Head = new Map();
  let positions: readonly string[] | undefined;
  for (const [index, raw] of records.rows.entries()) {
    const row = index + 1;
    const cells = raw.map((cell) => cell.trim());
    const first = plainName(cells[0] ?? '');
    if (cells.every((cell) => cell === '')) {
      if (positions !== undefined) [head, positions] = [new Map(), undefined];
    } else if (isLabel(first)) {
      if (positions !== undefined) [head, positions] = [new Map(), undefined];
      takeLabels(file, row, cells, head, problems);
    } else if (/^heights?_?(?:mm)?(?:$|_)/.test(first)) {
      positions = positionsOf(file, row, cells, head, problems);
    } else if (positions === undefined) others.push(row);
    else rows.push(...rowsOf(file, row, cells, head, positions, problems));
  }
  if (others.length > 0) notes.notUsed.push({ kind: 'rows', file, what: 'note', rows: others });
  if (rows.length === 0) {
    const expected =
      'blocks, each with rows wall, date and instrument, a row height_mm with the positions, and a row a height';
    problems.push({ file, found: 'no block of readings', expected });
  }
  const decimal = decimalMark(
    rows.flatMap(({ cells }) => cells.slice(-3)),
    records.separator,
  );
  const read = { file, table: 'grids', headerRow: 1, rows: rows.length };
  const named = columns.map((as) => ({ heading: as, as, ...(as.endsWith('_mm') ? { unit: 'mm' } : {}) }));
  notes.tables.push({ ...read, columns: named, ...present({ decimal }) });
  const at = new Map<string, number>(columns.map((column, index) => [column, index]));
  return {
    place: file,
    columns: at,
    furtherColumns: [],
    dateOrders: ordersOfDates(records, { columns: at, rows }, ['date'], dateOrder, problems),
    rows,
    refusedRows: 0,
    mended: (cell) => notes.mended({ file, ...cell }),
    ...present({ separator: records.separator, decimal }),
  };
}

function isLabel(name: string): boolean {
  return labels.some((label) => label === name);
}

/** A label and what it says stand side by side, one pair or several in a row. */
function takeLabels(file: string, row: number, cells: readonly string[], head: Head, problems: Problem[]): void {
  const filled = cells.flatMap((cell, index) => (cell === '' ? [] : [{ cell, index }]));
  for (let at = 0; at < filled.length; at++) {
    const label = plainName(filled[at]?.cell ?? '');
    const next = filled[at + 1];
    if (!isLabel(label)) {
      const found = quoted(filled[at]?.cell ?? '');
      problems.push({
        file,
        row,
        found,
        expected: `one of the labels ${labels.join(', ')}, each with its value beside it`,
      });
      return;
    }
    // What stands right beside a label is its value, unless it is a label itself: then there is none.
    if (next === undefined || next.index !== (filled[at]?.index ?? 0) + 1 || isLabel(plainName(next.cell))) continue;
    if (head.has(label)) problems.push({ file, row, column: label, found: 'it twice in a block', expected: 'it once' });
    head.set(label, next.cell);
    at++;
  }
}

function positionsOf(
  file: string,
  row: number,
  cells: readonly string[],
  head: Head,
  problems: Problem[],
): readonly string[] {
  for (const label of needed) {
    if (head.has(label)) continue;
    const found = `a block without ${label}`;
    problems.push({ file, row, column: label, found, expected: `rows above it that say ${needed.join(', ')}` });
  }
  const positions = cells.slice(1);
  const given = positions.filter((cell) => cell !== '');
  const twice = given.find((cell, index) => given.indexOf(cell) !== index);
  if (twice !== undefined)
    problems.push({
      file,
      row,
      column: 'position_mm',
      found: `the position ${quoted(twice)} twice`,
      expected: 'it once',
    });
  return positions;
}

function rowsOf(
  file: string,
  row: number,
  [height = '', ...values]: readonly string[],
  head: Head,
  positions: readonly string[],
  problems: Problem[],
): TableRow[] {
  return values.flatMap((value, index) => {
    const position = positions[index] ?? '';
    if (value === '') return [];
    if (position === '' || height === '') {
      const found = `${quoted(value)} ${position === '' ? 'below no position' : 'beside no height'}`;
      problems.push({
        file,
        row,
        column: 'value',
        found,
        expected: 'a height in the first column and a position above it',
      });
      return [];
    }
    return [{ row, cells: [...labels.map((label) => head.get(label) ?? ''), height, position, value] }];
  });
}
