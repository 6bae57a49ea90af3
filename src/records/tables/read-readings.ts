import type { KnewArm, Problem, Reading } from '../../trial/index.js';
import { type CellReader, cellReader } from '../cells/cell-reader.js';
import { choiceCell } from '../cells/choice-cell.js';
import { dayOrTimeCell } from '../cells/date-cell.js';
import { nameCell } from '../cells/name-cell.js';
import { recordedCell } from '../cells/number-cell.js';
import type { Table, TableRow } from '../folder/table.js';
import type { Known } from './known.js';
import { stationCell } from './station-cell.js';

export const knewArmWords: readonly KnewArm[] = ['yes', 'no', 'unsure'];

/**
 * The readings, in the order of the file.
 *
 * A reading is there twice when date (with its time, if it has one), wall, station, instrument, reader, value and every
 * further column are the same: that is a row pasted twice. Readings repeated on purpose differ in their value, or carry a
 * time or a further column (`repeat`: 1, 2, …) that tells them apart. Missing values are never the same reading.
 */
export function readReadings(table: Table, known: Known, problems: Problem[]): readonly Reading[] {
  const cells = cellReader(table, problems);
  const rowsByReading = new Map<string, number>();
  return table.rows.map((row) => {
    const reading = readReading(cells, row, known);
    if (reading.value.kind === 'missing') return reading;
    const key = keyOf(table, row, reading);
    const earlier = rowsByReading.get(key);
    if (earlier === undefined) rowsByReading.set(key, row.row);
    else {
      const expected =
        'each reading once; tell repeats of equal value apart by a time in the date or a further column such as repeat';
      cells.refuseAs(row, 'value', `the same reading as in row ${earlier}`, expected);
    }
    return reading;
  });
}

function readReading(cells: CellReader, row: TableRow, known: Known): Reading {
  const date = dayOrTimeCell(cells, row, 'date');
  const wall = nameCell(cells, row, 'wall', known.walls);
  const station = stationCell(cells, row, wall, known);
  const instrument = nameCell(cells, row, 'instrument', known.instruments);
  const value = recordedCell(cells, row, 'value');
  const reader = cells.text(row, 'reader');
  const knewArm = choiceCell(cells, row, 'knew_arm', knewArmWords);
  return {
    date,
    wall,
    station,
    instrument,
    value,
    ...(reader === undefined ? {} : { reader }),
    ...(knewArm === undefined ? {} : { knewArm }),
    origin: cells.origin(row),
  };
}

function keyOf(table: Table, row: TableRow, reading: Reading): string {
  const { value } = reading;
  const recorded = value.kind === 'measured' ? value.value : value.kind === 'below-detection' ? `<${value.limit}` : '';
  const further = table.furtherColumns.map((column) => row.cells[column] ?? '');
  // A control character cannot occur in a cell.
  return [
    reading.date,
    reading.wall,
    reading.station,
    reading.instrument,
    reading.reader ?? '',
    recorded,
    ...further,
  ].join('\u0000');
}
