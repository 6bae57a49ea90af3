import type { NotUsed, Problem } from '../../trial/index.js';
import { isMissing } from '../cells/missing-words.js';
import { quoted } from '../quoted.js';
import type { HeadingNames } from './find-columns.js';
import type { Table } from './table.js';
import type { TableLayout } from './table-layouts.js';
import { plainName } from './table-naming.js';
import { isUnitOfColumn, namesContainer, saysPercent, unitInHeading } from './units-of-columns.js';

interface FoundTable extends Pick<Table, 'columns' | 'furtherColumns' | 'rows'> {
  readonly header: readonly string[];
  readonly headerRow: number;
}

/**
 * The columns that hold something and are not read. One that measures (grams, millimetres or volts in its heading, or a container's name
 * above numbers) beside columns that are read may be the very thing that the answer needs: it must be mapped or set aside. So must any
 * column of numbers beside weighed cores that have no container: a needless question costs a line in the plan, an unread tare the answer.
 */
export function furtherColumnNotes(
  place: string,
  { header, headerRow, columns, furtherColumns, rows }: FoundTable,
  layout: TableLayout,
  names: HeadingNames,
  problems: Problem[],
): NotUsed[] {
  const before = problems.length;
  const unexplained: string[] = [];
  const notes = furtherColumns.flatMap((index): NotUsed[] => {
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
    } else if (!isListed && !saysPercent(heading) && holdsMasses(filled.map(({ cells }) => cells[index] ?? ''))) {
      unexplained.push(column);
    }
    return [{ kind: 'column', file: place, column, cells: filled.length, isListed }];
  });
  // A container under a name of its own has been asked for by now.
  if (problems.length === before && unexplained.length > 0 && lacksContainer({ columns, rows })) {
    const several = unexplained.length > 1;
    problems.push({
      file: place,
      row: headerRow,
      ...(several ? {} : { column: unexplained[0] ?? '' }),
      found: `numbers under ${unexplained.map(quoted).join(', ')} that are not read, and no mass of a container`,
      expected: several
        ? 'in the plan, under columns, which of them is container_g, and the other headings under ignore'
        : 'in the plan, under columns, that it is container_g, or its heading under ignore',
    });
  }
  return notes;
}

/** Whether cores were weighed, by this table, without any container. The dry mass is then that of the brick alone, or the answer is wrong. */
function lacksContainer({ columns, rows }: Pick<FoundTable, 'columns' | 'rows'>): boolean {
  if (!columns.has('wet_g') || !columns.has('dry_g')) return false;
  const container = columns.get('container_g');
  return container === undefined || rows.every(({ cells }) => isMissing(cells[container] ?? ''));
}

/** Whether most of the cells are numbers that may be grams. Of what size is left open: any of them may stand for a container. */
function holdsMasses(cells: readonly string[]): boolean {
  return cells.filter((cell) => /^[+]?\d+(?:[.,]\d+)?\s*(?:g|gr|grams?)?$/i.test(cell)).length * 2 > cells.length;
}
