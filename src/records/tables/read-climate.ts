import { daysBetween, isIsoDay, isoDay } from '../../plain/days.js';
import { present } from '../../plain/present.js';
import { type ClimateReading, mostHumidityShown_pct, type Problem } from '../../trial/index.js';
import { type CellReader, cellReader } from '../cells/cell-reader.js';
import { dayOrTimeCell } from '../cells/date-cell.js';
import { type NumberRule, numberCell } from '../cells/number-cell.js';
import type { Table } from '../folder/table.js';

const temperature: NumberRule = {
  // The extremes recorded outdoors are -89.2 and 56.7 °C (from memory). Beyond them it is another unit, or a sensor's word for failure.
  accepts: (value) => value >= -90 && value <= 60,
  expected:
    'a temperature of air in °C from -90 to 60; turn kelvin or Fahrenheit into °C, and leave a failed reading empty',
};
const humidity: NumberRule = {
  // No air beside a wall is so dry: a share of one, or a failed sensor. In saturated air a hygrometer may show somewhat more than 100 %.
  accepts: (value) => value > 1 && value <= mostHumidityShown_pct,
  expected: `a relative humidity in % above 1 and up to 100, or as a hygrometer shows it up to ${mostHumidityShown_pct}; 0.62 is 62 %, and a failed reading is left empty`,
};
const surface: NumberRule = {
  // Frost, and full sun; beyond them the formulae of humid air say nothing. It is another unit then, or a sensor's word for failure.
  accepts: (value) => value >= -45 && value <= 60,
  expected:
    'the temperature of the wall’s surface in °C from -45 to 60; turn kelvin or Fahrenheit into °C, and leave a failed reading empty',
};
const rain: NumberRule = { accepts: (value) => value >= 0, expected: 'rain in mm of 0 or more' };
const heating: NumberRule = { accepts: (value) => value >= 0, expected: 'hours of heating of 0 or more' };

/** The climate readings, in the order of the file. */
export function readClimate(table: Table, problems: Problem[]): readonly ClimateReading[] {
  const cells = cellReader(table, problems);
  const readings = table.rows.map((row): ClimateReading => {
    const time = dayOrTimeCell(cells, row, 'time');
    const place = cells.needed(row, 'place', 'where it was measured');
    const temperature_c = numberCell(cells, row, 'temperature_c', temperature);
    const relative_humidity_pct = numberCell(cells, row, 'relative_humidity_pct', humidity);
    const surface_c = numberCell(cells, row, 'surface_c', surface);
    const rain_mm = numberCell(cells, row, 'rain_mm', rain);
    const heating_h = numberCell(cells, row, 'heating_h', heating);
    return {
      time,
      place,
      ...present({ temperature_c, relative_humidity_pct, surface_c, rain_mm, heating_h }),
      origin: cells.origin(row),
    };
  });
  checkHours(cells, readings);
  return readings;
}

/** Refuses more hours of heating than passed, which are kilowatt-hours or a running total. */
function checkHours(cells: CellReader, readings: readonly ClimateReading[]): void {
  const inOrder = readings
    .map(({ time, place, heating_h }, k) => ({
      time,
      day: isoDay(time),
      place,
      heating_h,
      row: cells.table.rows[k],
    }))
    .sort((one, other) => (one.time < other.time ? -1 : one.time > other.time ? 1 : 0));
  const soFar = new Map<string, { readonly day: string; readonly hours: number; readonly before?: string }>();
  for (const { day, place, heating_h = 0, row } of inOrder) {
    const known = soFar.get(place);
    const hours = heating_h + (known?.day === day ? known.hours : 0);
    const before = known?.day === day ? known.before : known?.day;
    soFar.set(place, { day, hours, ...present({ before }) });
    if (before === undefined || row === undefined) continue;
    // A time that is none has been named already.
    if (!isIsoDay(day) || !isIsoDay(before) || hours <= 24 * daysBetween(before, day)) continue;
    cells.refuse(
      row,
      'heating_h',
      `at most 24 hours a day since the row before of the same place (${before}): hours for which the heating ran, not kilowatt-hours`,
    );
  }
}
