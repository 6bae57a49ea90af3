import { present } from '../../plain/present.js';
import type { Injection, Problem } from '../../trial/index.js';
import { cellReader } from '../cells/cell-reader.js';
import { optionalDayCell } from '../cells/date-cell.js';
import { nameCell } from '../cells/name-cell.js';
import { type NumberRule, numberCell } from '../cells/number-cell.js';
import type { Table } from '../folder/table.js';
import type { Known } from './known.js';

/** More than any wall can take up along a metre: a volume in millilitres, or of the whole wall, is caught. */
const litres: NumberRule = {
  accepts: (value) => value > 0 && value <= 100,
  expected: 'litres for each metre of wall, above 0 and at most 100',
};
const spacing: NumberRule = {
  accepts: (value) => value >= 10 && value <= 2000,
  expected: 'the distance from hole to hole in mm, from 10 to 2000',
};
const depth: NumberRule = {
  accepts: (value) => value >= 10 && value <= 5000,
  expected: 'the depth of the holes in mm, from 10 to 5000',
};
const moisture: NumberRule = {
  accepts: (value) => value >= 0 && value <= 100,
  expected: 'the moisture of the masonry when it was injected in % by mass, from 0 to 100',
};

/** What was injected, in the order of the file. */
export function readInjections(table: Table, known: Pick<Known, 'walls'>, problems: Problem[]): readonly Injection[] {
  const cells = cellReader(table, problems);
  return table.rows.map((row) => {
    cells.needed(row, 'date', 'a date as YYYY-MM-DD, such as 2024-03-01');
    const date = optionalDayCell(cells, row, 'date') ?? '';
    const wall = nameCell(cells, row, 'wall', known.walls);
    const lot = cells.text(row, 'lot');
    cells.needed(row, 'litres_per_m', litres.expected);
    const litres_per_m = numberCell(cells, row, 'litres_per_m', litres) ?? 0;
    const plannedLitres_per_m = numberCell(cells, row, 'planned_litres_per_m', litres);
    const spacing_mm = numberCell(cells, row, 'spacing_mm', spacing);
    const depth_mm = numberCell(cells, row, 'depth_mm', depth);
    const moisture_pct = numberCell(cells, row, 'moisture_pct', moisture);
    return {
      date,
      wall,
      ...present({ lot }),
      litres_per_m,
      ...present({ plannedLitres_per_m, spacing_mm, depth_mm, moisture_pct }),
      origin: cells.origin(row),
    };
  });
}
