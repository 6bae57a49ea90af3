import { isoDay } from '../../plain/days.js';
import { present } from '../../plain/present.js';
import type { Problem, TrayRecord, TrayWater } from '../../trial/index.js';
import { cellReader } from '../cells/cell-reader.js';
import { choiceCell } from '../cells/choice-cell.js';
import { dayOrTimeCell } from '../cells/date-cell.js';
import { nameCell } from '../cells/name-cell.js';
import { type NumberRule, numberCell } from '../cells/number-cell.js';
import type { Table } from '../folder/table.js';
import { quoted } from '../quoted.js';
import type { Known } from './known.js';
import { knewArmWords } from './read-readings.js';

const refill: NumberRule = { accepts: (value) => value >= 0, expected: 'water refilled in ml, of 0 or more' };
const mass: NumberRule = { accepts: (value) => value > 0, expected: 'the mass of the whole specimen in kg, above 0' };
const level: NumberRule = { accepts: (value) => value >= 0, expected: 'the level in the tray in mm, of 0 or more' };
const waters: readonly TrayWater[] = ['tap', 'salt'];

/** The records of trays, in the order of the file: each wall once a day. */
export function readTrays(table: Table, known: Pick<Known, 'walls'>, problems: Problem[]): readonly TrayRecord[] {
  const cells = cellReader(table, problems);
  const rowsByDay = new Map<string, number>();
  return table.rows.map((row) => {
    const date = dayOrTimeCell(cells, row, 'date');
    const wall = nameCell(cells, row, 'wall', known.walls);
    const refill_ml = numberCell(cells, row, 'refill_ml', refill);
    const mass_kg = numberCell(cells, row, 'mass_kg', mass);
    const level_mm = numberCell(cells, row, 'level_mm', level);
    const water = choiceCell(cells, row, 'water', waters);
    const reader = cells.text(row, 'reader');
    const knewArm = choiceCell(cells, row, 'knew_arm', knewArmWords);
    const key = JSON.stringify([wall, isoDay(date)]);
    const earlier = rowsByDay.get(key);
    if (earlier === undefined) rowsByDay.set(key, row.row);
    else if (wall !== '' && date !== '') {
      const found = `wall ${quoted(wall)} on ${isoDay(date)} again, after row ${earlier}`;
      cells.refuseAs(row, 'date', found, 'each wall once a day; add up what was refilled');
    }
    return {
      date,
      wall,
      ...present({ refill_ml, mass_kg, level_mm, water, reader, knewArm }),
      origin: cells.origin(row),
    };
  });
}
