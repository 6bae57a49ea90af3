import type { KnewArm, Problem, Reading } from '../../trial/index.js';
import { type CellReader, cellReader } from '../cells/cell-reader.js';
import { choiceCell } from '../cells/choice-cell.js';
import { dayOrTimeCell } from '../cells/date-cell.js';
import { nameCell } from '../cells/name-cell.js';
import { recordedCell } from '../cells/number-cell.js';
import type { Table, TableRow } from '../folder/table.js';
import type { Known } from './known.js';
import { repeatedReadings } from './repeated-readings.js';
import { stationCell } from './station-cell.js';
import type { UnitsOfValues } from './units-of-values.js';

/** A record while it is being made: two hundred thousand of them are built field by field faster than by spreading. */
type Writable<Fields> = { -readonly [key in keyof Fields]: Fields[key] };

export const leads: readonly NonNullable<Reading['lead']>[] = ['as-stated', 'reversed'];

export const knewArmWords: readonly KnewArm[] = ['yes', 'no', 'unsure'];

/**
 * The readings, in the order of the file. The same reading twice is a problem (`repeatedReadings` says what that means):
 * readings repeated on purpose differ in their value, or carry a time or a further column (`repeat`: 1, 2, …) that tells
 * them apart.
 */
export function readReadings(
  table: Table,
  known: Known,
  units: UnitsOfValues,
  problems: Problem[],
): readonly Reading[] {
  const cells = cellReader(table, problems);
  const readings = table.rows.map((row) => readReading(cells, row, known, units));
  for (const { index, earlier } of repeatedReadings(table, readings)) {
    const [row, earlierRow] = [table.rows[index], table.rows[earlier]];
    if (row === undefined || earlierRow === undefined) continue;
    const expected =
      'each reading once; tell repeats of equal value apart by a time in the date or a further column such as repeat';
    cells.refuseAs(row, 'value', `the same reading as in row ${earlierRow.row}`, expected);
  }
  return readings;
}

function readReading(cells: CellReader, row: TableRow, known: Known, units: UnitsOfValues): Reading {
  const date = dayOrTimeCell(cells, row, 'date');
  const wall = nameCell(cells, row, 'wall', known.walls);
  const station = stationCell(cells, row, wall, known);
  const instrument = nameCell(cells, row, 'instrument', known.instruments);
  const value = recordedCell(cells, row, 'value', (unit) => units(instrument, unit));
  const lead = choiceCell(cells, row, 'lead', leads);
  const reader = cells.text(row, 'reader');
  const knewArm = choiceCell(cells, row, 'knew_arm', knewArmWords);
  const reading: Writable<Reading> = { date, wall, station, instrument, value, origin: cells.origin(row) };
  if (lead !== undefined) reading.lead = lead;
  if (reader !== undefined) reading.reader = reader;
  if (knewArm !== undefined) reading.knewArm = knewArm;
  return reading;
}
