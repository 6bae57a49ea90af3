import { present } from '../../plain/present.js';
import type { BlockCheck, Problem } from '../../trial/index.js';
import { cellReader } from '../cells/cell-reader.js';
import { dayOrTimeCell } from '../cells/date-cell.js';
import { nameCell } from '../cells/name-cell.js';
import { recordedCell } from '../cells/number-cell.js';
import type { Table } from '../folder/table.js';
import type { Known } from './known.js';

/** The readings on check blocks, in the order of the file. */
export function readChecks(
  table: Table,
  known: Pick<Known, 'instruments'>,
  problems: Problem[],
): readonly BlockCheck[] {
  const cells = cellReader(table, problems);
  return table.rows.map((row) => {
    const date = dayOrTimeCell(cells, row, 'date');
    const instrument = nameCell(cells, row, 'instrument', known.instruments);
    const block = cells.needed(row, 'block', 'the name of a check block');
    const value = recordedCell(cells, row, 'value');
    const reader = cells.text(row, 'reader');
    return {
      date,
      instrument,
      block,
      value,
      ...present({ reader }),
      origin: cells.origin(row),
    };
  });
}
