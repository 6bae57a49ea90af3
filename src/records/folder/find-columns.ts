import type { Problem } from '../../trial/index.js';
import { nearestName } from '../nearest-name.js';
import { quoted } from '../quoted.js';
import type { Table } from './table.js';
import type { TableLayout } from './table-layouts.js';

/**
 * Finds the columns of the contract in a header. A needed column that is absent is a problem, and so is a column that
 * stands there twice, or one whose name is so close to an absent column that it must be a slip: left unsaid, its content
 * would be ignored in silence.
 */
export function findColumns(
  place: string,
  row: number,
  header: readonly string[],
  layout: TableLayout,
  problems: Problem[],
): Pick<Table, 'columns' | 'furtherColumns'> {
  const known = [...layout.needed, ...layout.optional];
  const columns = new Map<string, number>();
  const furtherColumns: number[] = [];
  const seen = new Set<string>();
  for (const [index, name] of header.entries()) {
    if (name !== '' && seen.has(name)) {
      problems.push({ file: place, row, column: name, found: `the column ${quoted(name)} twice`, expected: 'it once' });
    } else if (known.includes(name)) columns.set(name, index);
    else furtherColumns.push(index);
    seen.add(name);
  }
  const absent = known.filter((name) => !columns.has(name));
  const explained = new Set<string>();
  for (const name of furtherColumns.map((index) => header[index] ?? '')) {
    const suggestion = nearestName(name, absent);
    if (suggestion === undefined) continue;
    explained.add(suggestion);
    problems.push({
      file: place,
      row,
      column: suggestion,
      found: `a column ${quoted(name)} and none of this name`,
      expected: `the columns ${known.join(', ')}, and further ones only under names less like these`,
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
