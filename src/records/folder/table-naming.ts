import { type SheetName, sheetNames, type TableName } from './table-layouts.js';

/** What the plan says of headings and sheets that bear other names than those of the contract. */
export interface TableNaming {
  /** Of each table, the column that a heading stands for. */
  readonly columns: ReadonlyMap<TableName, ReadonlyMap<string, string>>;
  readonly sheets: ReadonlyMap<string, SheetName>;
  /** Headings and sheets that are not to be read. */
  readonly ignore: ReadonlySet<string>;
  readonly dateOrder?: 'day-first' | 'month-first';
}

export const plainNaming: TableNaming = { columns: new Map(), sheets: new Map(), ignore: new Set() };

/**
 * A heading without what people write in different ways: capitals, blanks, brackets and strokes.
 *
 * @example plainName(' Height (mm) ') // 'height_mm'
 */
export function plainName(heading: string): string {
  // Most are so already, and to look every letter up takes long.
  if (/^[a-z\d]+(?:_[a-z\d]+)*$/.test(heading)) return heading;
  return heading
    .normalize('NFKC')
    .toLowerCase()
    .replaceAll('%', ' pct ')
    .replace(/[^\p{L}\p{N}]+/gu, '_')
    .replace(/^_|_$/g, '');
}

/** The table that a sheet holds: by the plan, by its name, or by its name in another case or with `.csv` behind it. */
export function tableOfSheet(sheet: string, naming: TableNaming): SheetName | undefined {
  if (naming.ignore.has(plainName(sheet))) return undefined;
  const plain = plainName(sheet.replace(/\.csv\s*$/i, ''));
  return naming.sheets.get(plainName(sheet)) ?? sheetNames.find((name) => name === plain);
}
