import { present } from '../../plain/present.js';
import { type DryingBatchRecord, mostHumidityShown_pct, type Problem } from '../../trial/index.js';
import { cellReader } from '../cells/cell-reader.js';
import { type NumberRule, numberCell } from '../cells/number-cell.js';
import type { Table } from '../folder/table.js';

const oven: NumberRule = {
  accepts: (value) => value >= 30 && value <= 200,
  expected: 'the temperature of the oven in °C, from 30 to 200; turn kelvin or Fahrenheit into °C',
};
const change: NumberRule = {
  accepts: (value) => value >= 0 && value <= 100,
  expected: 'the change of mass between the last two weighings in %, from 0 to 100',
};
const earlierChange: NumberRule = {
  accepts: (value) => value >= 0 && value <= 100,
  expected:
    'the change of mass between the two weighings before the last, over as long an interval, in %, from 0 to 100',
};
const humidity: NumberRule = {
  // Below 1 % it is a share of one. In saturated air nothing comes to equilibrium: no excess comes from such a batch, and the report says so.
  accepts: (value) => value > 1 && value <= mostHumidityShown_pct,
  expected: `the relative humidity of the humid weighing in %, above 1 and up to 100, or as a hygrometer shows it up to ${mostHumidityShown_pct}; 0.75 is 75 %`,
};
const humidTemperature: NumberRule = {
  accepts: (value) => value >= 0 && value <= 60,
  expected: 'the temperature of the humid weighing in °C, from 0 to 60; turn kelvin or Fahrenheit into °C',
};

/** The batches, in the order of the file, each once. */
export function readBatches(table: Table, problems: Problem[]): readonly DryingBatchRecord[] {
  const cells = cellReader(table, problems);
  const rowsByName = new Map<string, number>();
  return table.rows.map((row) => {
    const batch = cells.needed(row, 'batch', 'the name of a batch');
    const earlier = rowsByName.get(batch);
    if (batch !== '' && earlier !== undefined)
      cells.refuseAs(row, 'batch', `the same batch as in row ${earlier}`, 'each batch once');
    else rowsByName.set(batch, row.row);
    const oven_c = numberCell(cells, row, 'oven_c', oven);
    const stopRule = cells.text(row, 'stop_rule');
    const lastChange_pct = numberCell(cells, row, 'last_change_pct', change);
    const changeBefore_pct = numberCell(cells, row, 'change_before_pct', earlierChange);
    const humidity_pct = numberCell(cells, row, 'humidity_pct', humidity);
    const humidTemperature_c = numberCell(cells, row, 'humid_temperature_c', humidTemperature);
    const note = cells.text(row, 'note');
    return {
      batch,
      ...present({ oven_c, stopRule, lastChange_pct, changeBefore_pct, humidity_pct, humidTemperature_c, note }),
      origin: cells.origin(row),
    };
  });
}
