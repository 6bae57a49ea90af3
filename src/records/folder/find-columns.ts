import type { Problem } from '../../trial/index.js';
import { nearestName } from '../nearest-name.js';
import { quoted } from '../quoted.js';
import type { Table } from './table.js';
import type { TableLayout } from './table-layouts.js';
import { plainName } from './table-naming.js';
import { isUnitOfColumn, unitInHeading, unitOfColumn } from './units-of-columns.js';

/** What the plan says of the headings of one table. */
export interface HeadingNames {
  /** The column that a heading stands for, by `plainName`. */
  readonly columns: ReadonlyMap<string, string>;
  readonly ignore: ReadonlySet<string>;
}

/** The column that a heading names: by the plan, or by its own name in any case and with brackets or blanks for strokes. */
export function columnNamed(heading: string, layout: TableLayout, names: HeadingNames): string | undefined {
  const plain = plainName(heading);
  if (plain === '' || names.ignore.has(plain)) return undefined;
  return names.columns.get(plain) ?? [...layout.needed, ...layout.optional].find((column) => column === plain);
}

/** A heading that ends with a unit must not stand for a column in another: depths in cm are ten times too small in mm. */
function fitsUnit(heading: string, column: string): boolean {
  const unit = unitInHeading(heading);
  return unit === undefined || unitOfColumn(column) === undefined || isUnitOfColumn(unit, column);
}

/**
 * Finds the columns of the contract in a header. A needed column that is absent is a problem, and so is a column that
 * stands there twice, or one whose name is so close to an absent column that it must be a slip: left unsaid, its content
 * would be ignored.
 */
export function findColumns(
  place: string,
  row: number,
  header: readonly string[],
  layout: TableLayout,
  names: HeadingNames,
  problems: Problem[],
): Pick<Table, 'columns' | 'furtherColumns'> {
  const known: ReadonlySet<string> = new Set([...layout.needed, ...layout.optional]);
  const columns = new Map<string, number>();
  const furtherColumns: number[] = [];
  const seen = new Set<string>();
  // Columns whose absence a problem has explained already.
  const explained = new Set<string>();
  for (const [index, heading] of header.entries()) {
    const name = columnNamed(heading, layout, names);
    const other = name === undefined ? undefined : columns.get(name);
    if (heading !== '' && (seen.has(heading) || other !== undefined)) {
      const before = header[other ?? -1];
      const twice = before === undefined || before === heading;
      const found = twice
        ? `the column ${quoted(heading)} twice`
        : `the columns ${quoted(before)} and ${quoted(heading)}, both ${name}`;
      problems.push({ file: place, row, column: heading, found, expected: 'it once' });
    } else if (name !== undefined && !fitsUnit(heading, name)) {
      const found = `the unit of ${quoted(heading)} for ${name}`;
      const expected = `values in ${unitOfColumn(name)}, and a heading that says so`;
      problems.push({ file: place, row, column: heading, found, expected });
      explained.add(name);
    } else if (name !== undefined) columns.set(name, index);
    else furtherColumns.push(index);
    seen.add(heading);
  }
  const absent = [...known].filter((name) => !columns.has(name));
  for (const name of furtherColumns.map((index) => header[index] ?? '')) {
    const suggestion = names.ignore.has(plainName(name)) ? undefined : nearestName(name, absent);
    // What differs in its unit is no slip.
    if (suggestion === undefined || !fitsUnit(name, suggestion)) continue;
    explained.add(suggestion);
    problems.push({
      file: place,
      row,
      column: suggestion,
      found: `a column ${quoted(name)} and none of this name`,
      expected: `the columns ${[...known].join(', ')}, and further ones only under names less like these`,
      suggestion,
    });
  }
  for (const name of layout.needed) {
    if (columns.has(name) || explained.has(name)) continue;
    const found = `no such column in the header ${quoted(header.join(', '))}`;
    problems.push({ file: place, row, column: name, found, expected: `the columns ${layout.needed.join(', ')}` });
  }
  return { columns, furtherColumns };
}
