import type { ClimateReading, Problem } from '../../trial/index.js';
import { cellReader } from '../cells/cell-reader.js';
import { dayOrTimeCell } from '../cells/date-cell.js';
import { type NumberRule, numberCell } from '../cells/number-cell.js';
import type { Table } from '../folder/table.js';

const temperature: NumberRule = {
  // Hotter air than the hottest ever recorded outdoors, 56.7 °C (from memory), is another unit.
  accepts: (value) => value >= -273.15 && value <= 60,
  expected:
    'a temperature in °C no lower than absolute zero, -273.15, and no higher than 60; turn kelvin or Fahrenheit into °C',
};
const humidity: NumberRule = {
  accepts: (value) => value >= 0 && value <= 100,
  expected: 'a relative humidity in % from 0 to 100',
};

/** The climate readings, in the order of the file. */
export function readClimate(table: Table, problems: Problem[]): readonly ClimateReading[] {
  const cells = cellReader(table, problems);
  return table.rows.map((row) => {
    const time = dayOrTimeCell(cells, row, 'time');
    const place = cells.needed(row, 'place', 'where it was measured');
    const temperature_c = numberCell(cells, row, 'temperature_c', temperature);
    const relative_humidity_pct = numberCell(cells, row, 'relative_humidity_pct', humidity);
    return {
      time,
      place,
      ...(temperature_c === undefined ? {} : { temperature_c }),
      ...(relative_humidity_pct === undefined ? {} : { relative_humidity_pct }),
      origin: cells.origin(row),
    };
  });
}
