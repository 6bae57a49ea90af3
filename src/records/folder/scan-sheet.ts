import { attributeOf, withoutEntities } from './xml-elements.js';

/** A cell of a sheet whose formula came to no value. */
interface FormulaFault {
  readonly row: number;
  /** Counted from 0. */
  readonly column: number;
  /** For instance `the formula error "#DIV/0!"`. */
  readonly found: string;
}

/** What the workbook reader does not tell of a sheet. */
export interface SheetScan {
  /** Cells that hold an error, or a formula whose value was never stored. */
  readonly faults: readonly FormulaFault[];
  /** Numbers shown as per cent, by `cellKey`. */
  readonly perCent: ReadonlySet<number>;
  readonly size: SheetSize;
}

/** How far a sheet reaches. */
interface SheetSize {
  readonly rows: number;
  readonly cells: number;
  /** The last row and column in which there is anything at all. */
  readonly lastRow: number;
  readonly lastColumn: number;
  /** The last row and the last column with a value, each with the place of a cell there. */
  readonly valueRow: number;
  readonly valueColumn: number;
  readonly farthest: string;
}

/** Sheets have no more columns than this. */
export const mostColumns = 16_384;

export function cellKey(row: number, column: number): number {
  return row * mostColumns + column;
}

/** Beyond this there are too many faults for anybody to read. */
const mostFaults = 10_000;

const tags = /<(?:\w+:)?(row|c|f|v|is)(?=[\s/>])([^<>]*)>/g;

interface Cell {
  readonly row: number;
  readonly column: number;
  readonly place: string;
  readonly type: string;
  readonly style: number;
  formula?: string;
  value?: string;
  hasText?: boolean;
}

/**
 * Goes once through the XML of a sheet. The workbook reader gives out as empty both a formula that failed and one that was never computed;
 * an empty cell means a missing value, and neither must pass for one. And it gives a number shown as `14.9%` as 0.149.
 */
export function scanSheet(xml: string, perCentStyles: ReadonlySet<number>): SheetScan {
  const faults: FormulaFault[] = [];
  const perCent = new Set<number>();
  const size = { rows: 0, cells: 0, lastRow: 0, lastColumn: 0, valueRow: 0, valueColumn: 0, farthest: '' };
  let [row, column] = [0, -1];
  let cell: Cell | undefined;

  function finish(): void {
    if (cell === undefined) return;
    const fault = faultOf(cell);
    if (fault !== undefined && faults.length < mostFaults)
      faults.push({ row: cell.row, column: cell.column, found: fault });
    if (cell.type === 'n' && (cell.value ?? '') !== '' && perCentStyles.has(cell.style))
      perCent.add(cellKey(cell.row, cell.column));
    if (cell.value !== undefined || cell.hasText === true) {
      if (cell.row > size.valueRow || cell.column + 1 > size.valueColumn) size.farthest = cell.place;
      size.valueRow = Math.max(size.valueRow, cell.row);
      size.valueColumn = Math.max(size.valueColumn, cell.column + 1);
    }
    cell = undefined;
  }

  for (const match of xml.matchAll(tags)) {
    const [tag, name, attributes = ''] = match;
    const textOf = () => {
      if (attributes.endsWith('/')) return '';
      const start = match.index + tag.length;
      return withoutEntities(xml.slice(start, xml.indexOf('<', start)));
    };
    if (name === 'row') {
      finish();
      row = wholeNumber(attributeOf(attributes, 'r')) ?? row + 1;
      column = -1;
      size.rows++;
      size.lastRow = Math.max(size.lastRow, row);
    } else if (name === 'c') {
      finish();
      const place = attributeOf(attributes, 'r');
      const [, letters = '', number = ''] = /^([A-Z]+)(\d+)$/.exec(place) ?? [];
      row = wholeNumber(number) ?? row;
      column = letters === '' ? column + 1 : columnOf(letters);
      size.cells++;
      size.lastRow = Math.max(size.lastRow, row);
      size.lastColumn = Math.max(size.lastColumn, column + 1);
      const type = attributeOf(attributes, 't') || 'n';
      const style = wholeNumber(attributeOf(attributes, 's')) ?? 0;
      cell = { row, column, place, type, style };
    } else if (cell !== undefined) {
      if (name === 'f') cell.formula = textOf();
      else if (name === 'v') cell.value = textOf();
      else cell.hasText = true;
    }
  }
  finish();
  return { faults, perCent, size };
}

/** An empty text is a value that a formula may come to; an empty number is none. */
function faultOf({ type, formula, value }: Cell): string | undefined {
  if (type === 'e')
    return `the formula error ${JSON.stringify(value === undefined || value === '' ? '#VALUE!' : value)}`;
  if (formula === undefined || (value !== undefined && (value !== '' || type === 'str'))) return undefined;
  const shown = formula.length > 60 ? `${formula.slice(0, 60)}…` : formula;
  return `${formula === '' ? 'a formula' : `the formula ${JSON.stringify(`=${shown}`)}`} whose value is not stored`;
}

function wholeNumber(text: string): number | undefined {
  return /^\d+$/.test(text) ? Number(text) : undefined;
}

/** A, B, …, Z, AA, AB, … */
function columnOf(letters: string): number {
  return [...letters].reduce((column, letter) => column * 26 + letter.charCodeAt(0) - 64, 0) - 1;
}
