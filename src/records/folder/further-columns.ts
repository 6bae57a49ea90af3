import type { NotUsed, Problem } from '../../trial/index.js';
import { isMissing } from '../cells/missing-words.js';
import { quoted } from '../quoted.js';
import type { HeadingNames } from './find-columns.js';
import type { Table } from './table.js';
import type { TableLayout } from './table-layouts.js';
import { plainName } from './table-naming.js';
import { isUnitOfColumn, namesContainer, unitInHeading } from './units-of-columns.js';

interface FoundTable extends Pick<Table, 'columns' | 'furtherColumns' | 'rows'> {
  readonly header: readonly string[];
  readonly headerRow: number;
}

/**
 * The columns that hold something and are not read. One that measures (grams, millimetres or volts in its heading, or a container's name
 * above numbers) beside columns that are read may be the very thing that the answer needs: it must be mapped or set aside.
 */
export function furtherColumnNotes(
  place: string,
  { header, headerRow, columns, furtherColumns, rows }: FoundTable,
  layout: TableLayout,
  names: HeadingNames,
  problems: Problem[],
): NotUsed[] {
  return furtherColumns.flatMap((index): NotUsed[] => {
    const filled = rows.filter(({ cells }) => !isMissing(cells[index] ?? ''));
    if (filled.length === 0) return [];
    const heading = header[index] ?? '';
    const isListed = names.ignore.has(plainName(heading));
    const column = heading === '' ? `number ${index + 1}` : heading;
    const isNumeric = filled.filter(({ cells }) => /\d/.test(cells[index] ?? '')).length * 2 > filled.length;
    const unit = unitInHeading(heading);
    const measures = isNumeric && (unit !== undefined || (columns.has('wet_g') && namesContainer(heading)));
    if (measures && !isListed && columns.size > 0) {
      const what = unit === undefined ? 'that may be the mass of a container' : `in ${unit}`;
      const absent = [...layout.needed, ...layout.optional].filter((name) => !columns.has(name));
      const fits = (name: string) => unit === undefined || isUnitOfColumn(unit, name);
      const within = layout.numeric.filter((name) => absent.includes(name) && fits(name));
      const candidates = within.length === 0 ? '' : ` (one of ${within.join(', ')})`;
      problems.push({
        file: place,
        row: headerRow,
        column,
        found: `a column ${quoted(column)} ${what} that is not read`,
        expected: `in the plan, under columns, what it is${candidates}, or its heading under ignore`,
      });
    }
    return [{ kind: 'column', file: place, column, cells: filled.length, isListed }];
  });
}
