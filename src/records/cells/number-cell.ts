import type { Recorded } from '../../trial/index.js';
import type { DecimalMark } from '../folder/decimal-mark.js';
import type { TableRow } from '../folder/table.js';
import { isUnitOfColumn } from '../folder/units-of-columns.js';
import type { CellReader } from './cell-reader.js';

/** What a number must be, beyond finite. */
export interface NumberRule {
  readonly accepts: (value: number) => boolean;
  /** For instance `a mass in grams above 0`. */
  readonly expected: string;
}

export const anyNumber: NumberRule = { accepts: () => true, expected: 'a number' };

/** A cell that holds a number or nothing. Nothing also after noting a problem. */
export function numberCell(cells: CellReader, row: TableRow, column: string, rule: NumberRule): number | undefined {
  const text = cells.text(row, column);
  if (text === undefined) return undefined;
  const plain = toNumber(text, cells.table.decimal);
  const value = plain ?? withUnit(cells, row, column, text, (unit) => isUnitOfColumn(unit, column));
  if (value === undefined) cells.refuse(row, column, `${rule.expected}${numberAdvice(text, cells.table.decimal)}`);
  else if (rule.accepts(value)) return value;
  else cells.refuse(row, column, rule.expected);
  return undefined;
}

/** A number with its unit behind it, where the unit is the one that is expected. */
function withUnit(
  cells: CellReader,
  row: TableRow,
  column: string,
  text: string,
  accepts: (unit: string) => boolean,
): number | undefined {
  const [, number, unit] = /^([<+\-\u2212]?[\d.,]+)\s*([%°\p{L}][%°\p{L}\d/^³ ]*)$/u.exec(text) ?? [];
  if (number === undefined || unit === undefined || !accepts(unit.trim())) return undefined;
  const value = toNumber(number, cells.table.decimal);
  if (value !== undefined) cells.mended(row, column, 'unit', number);
  return value;
}

/**
 * A value as it was written down: a number, `<` and a detection limit, or nothing.
 *
 * @param isUnit which units may stand behind it.
 */
export function recordedCell(
  cells: CellReader,
  row: TableRow,
  column: string,
  isUnit: (unit: string) => boolean = () => false,
): Recorded {
  const text = cells.text(row, column);
  if (text === undefined) return { kind: 'missing' };
  const below = text.startsWith('<');
  const number = below ? text.slice(1).trim() : text;
  const value = toNumber(number, cells.table.decimal) ?? withUnit(cells, row, column, number, isUnit);
  if (value === undefined) {
    const advice = numberAdvice(number, cells.table.decimal);
    const plain = advice === '' ? 'a number, a detection limit such as <0.5, NA or nothing' : `a number${advice}`;
    cells.refuse(row, column, below ? `a detection limit such as <0.5${advice}` : plain);
    return { kind: 'missing' };
  }
  if (!below) return { kind: 'measured', value };
  if (value > 0) return { kind: 'below-detection', limit: value };
  cells.refuse(row, column, 'a detection limit above 0, such as <0.5');
  return { kind: 'missing' };
}

const withPoint = /^[+-]?(?:\d+(?:\.\d*)?|\.\d+)(?:[eE][+-]?\d+)?$/;
const withComma = /^[+-]?(?:\d+(?:,\d*)?|,\d+)(?:[eE][+-]?\d+)?$/;

// Nothing that is measured on a wall lies beyond these; squares and quotients of what lies within stay finite.
const largest = 1e12;
const smallest = 1e-12;

/** Whether a number is of a size that something measured can have. */
export function isOfRealSize(value: number): boolean {
  const size = Math.abs(value);
  return size === 0 || (size >= smallest && size <= largest);
}

/** @returns nothing for whatever is no number of real size in decimal notation. */
function toNumber(text: string, decimal: DecimalMark | undefined): number | undefined {
  const plain = text.startsWith('\u2212') ? `-${text.slice(1)}` : text;
  if (!(decimal === 'comma' ? withComma : withPoint).test(plain)) return undefined;
  const value = Number(decimal === 'comma' ? plain.replace(',', '.') : plain);
  return isOfRealSize(value) ? value : undefined;
}

/** What to do about a text that looks like a number and is none, in words that follow "a number"; else nothing. */
export function numberAdvice(plain: string, decimal: DecimalMark | undefined): string {
  if (/^[+-]?\d{1,3}(?:[.,' \u00a0\u202f]\d{3})+(?:[.,]\d+)?$/.test(plain)) return ' without thousands separators';
  if (decimal === 'comma' && plain.includes('.') && withPoint.test(plain)) {
    return ' with a decimal comma, as elsewhere in this table';
  }
  if (decimal !== 'comma' && plain.includes(',') && withComma.test(plain)) {
    return ' with a decimal point, as elsewhere in this table';
  }
  if (withPoint.test(plain) || withComma.test(plain)) return ' of a size that can be measured';
  return /^[+-]?\d[\d.,]*\s*[^\d\s.,]+$/.test(plain) ? ' without a unit' : '';
}
