import { present } from '../../plain/present.js';
import { type ElectricalRecord, type Problem, secondsOf } from '../../trial/index.js';
import { type CellReader, cellReader } from '../cells/cell-reader.js';
import { choiceCell } from '../cells/choice-cell.js';
import { dayOrTimeCell } from '../cells/date-cell.js';
import { nameCell } from '../cells/name-cell.js';
import { type NumberRule, numberCell } from '../cells/number-cell.js';
import type { Table } from '../folder/table.js';
import { quoted } from '../quoted.js';
import type { Known } from './known.js';

// Our convention: no drying of walls goes beyond them, and milliamperes or millivolts written as they are do.
const voltage: NumberRule = {
  accepts: (value) => Math.abs(value) <= 1000,
  expected: 'a voltage in volts from -1000 to 1000; 2400 mV is 2.4',
};
const current: NumberRule = {
  accepts: (value) => Math.abs(value) <= 20,
  expected: 'a current in amperes from -20 to 20; 35 mA is 0.035',
};
const polarities = ['anode-in-wall', 'cathode-in-wall'] as const;
const states = ['on', 'off'] as const;

/** Voltages, currents and interruptions, in the order of the file; the same circuit and time once. */
export function readElectrical(
  table: Table,
  known: Pick<Known, 'walls'>,
  problems: Problem[],
): readonly ElectricalRecord[] {
  const cells = cellReader(table, problems);
  const rowsByPlace = new Map<string, number>();
  return table.rows.map((row): ElectricalRecord => {
    const time = dayOrTimeCell(cells, row, 'time');
    const wall = nameCell(cells, row, 'wall', known.walls);
    const electrode = cells.text(row, 'electrode');
    const voltage_v = numberCell(cells, row, 'voltage_v', voltage);
    const current_a = numberCell(cells, row, 'current_a', current);
    const polarity = choiceCell(cells, row, 'polarity', polarities);
    const state = choiceCell(cells, row, 'state', states) ?? 'on';
    checkFilled(cells, row, state);
    if (state === 'off' && current_a !== undefined && current_a !== 0)
      cells.refuse(row, 'current_a', 'no current, or 0, where the state is off');
    // A day alone is its noon, and one instant may be written with several zones.
    const instant = secondsOf(time);
    const place = JSON.stringify([Number.isNaN(instant) ? time : instant, wall, electrode]);
    const earlier = rowsByPlace.get(place);
    if (earlier === undefined) rowsByPlace.set(place, row.row);
    else
      cells.refuseAs(
        row,
        'time',
        `the time ${quoted(time)} again, after row ${earlier}`,
        'each wall, electrode and time once',
      );
    return {
      time,
      wall,
      ...present({ electrode, voltage_v, current_a, polarity }),
      state,
      origin: cells.origin(row),
    };
  });
}

/** A row that is on and states neither volts nor amperes says nothing. */
function checkFilled(cells: CellReader, row: Table['rows'][number], state: 'on' | 'off'): void {
  const isEmpty = cells.text(row, 'voltage_v') === undefined && cells.text(row, 'current_a') === undefined;
  if (state === 'on' && isEmpty)
    cells.refuseAs(row, 'current_a', 'neither voltage_v nor current_a', 'at least one of them, or the state off');
}
