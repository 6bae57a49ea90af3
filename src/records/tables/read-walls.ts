import { present } from '../../plain/present.js';
import type { Problem, Wall } from '../../trial/index.js';
import { cellReader } from '../cells/cell-reader.js';
import { optionalDayCell } from '../cells/date-cell.js';
import { nameCell } from '../cells/name-cell.js';
import { type NumberRule, numberCell } from '../cells/number-cell.js';
import type { Table } from '../folder/table.js';
import { quoted } from '../quoted.js';
import type { Known } from './known.js';
import { ownWindows } from './own-windows.js';

const thickness: NumberRule = { accepts: (value) => value > 0, expected: 'a thickness in mm above 0' };
const area: NumberRule = { accepts: (value) => value > 0, expected: 'the area of one face in m² above 0' };
/** Lighter than any masonry, heavier than any: a value in g/cm³ or in kilograms a brick is caught. */
const dryDensity: NumberRule = {
  accepts: (value) => value >= 200 && value <= 5000,
  expected: 'a dry density in kg/m³ from 200 to 5000, such as 1700',
};

/** No masonry takes up less than a hundredth of its mass, and none its own mass; a share of one is caught. */
const saturated: NumberRule = {
  accepts: (value) => value >= 1 && value <= 100,
  expected: 'the moisture content at saturation in % by mass of the dry material, from 1 to 100, such as 17',
};

/** The walls, each once. A wall whose arm is wrong is still a wall to the other tables. */
export function readWalls(table: Table, known: Pick<Known, 'arms'>, problems: Problem[]): readonly Wall[] {
  const cells = cellReader(table, problems);
  const rowsByWall = new Map<string, number>();
  const walls: Wall[] = [];
  for (const row of table.rows) {
    const wall = cells.needed(row, 'wall', 'the name of a wall');
    const arm = nameCell(cells, row, 'arm', known.arms);
    const block = cells.text(row, 'block');
    const site = cells.text(row, 'site');
    const material = cells.text(row, 'material');
    const exposure = cells.text(row, 'exposure');
    const thickness_mm = numberCell(cells, row, 'thickness_mm', thickness);
    const area_m2 = numberCell(cells, row, 'area_m2', area);
    const dryDensity_kg_m3 = numberCell(cells, row, 'dry_density_kg_m3', dryDensity);
    const saturated_pct = numberCell(cells, row, 'saturated_pct', saturated);
    const treatedOn = optionalDayCell(cells, row, 'treated_on');
    const windows = ownWindows(cells, row);
    const neighbours = cells
      .text(row, 'neighbours')
      ?.split('|')
      .map((name) => name.trim())
      .filter((name) => name !== '');
    const earlier = rowsByWall.get(wall);
    if (wall === '') continue;
    if (earlier === undefined) rowsByWall.set(wall, row.row);
    else cells.refuseAs(row, 'wall', `the wall ${quoted(wall)} again, after row ${earlier}`, 'each wall once');
    walls.push({
      wall,
      arm,
      ...present({
        block,
        site,
        material,
        exposure,
        thickness_mm,
        area_m2,
        dryDensity_kg_m3,
        saturated_pct,
        treatedOn,
        windows,
        neighbours,
      }),
      origin: cells.origin(row),
    });
  }
  checkNeighbours(walls, problems);
  if (table.rows.length === 0 && table.refusedRows === 0) {
    problems.push({ file: table.place, found: 'a header and no walls', expected: 'a row for each wall' });
  }
  return walls;
}

/** A neighbour must be another wall of the trial. */
function checkNeighbours(walls: readonly Wall[], problems: Problem[]): void {
  const names = new Set(walls.map(({ wall }) => wall));
  for (const { wall, neighbours = [], origin } of walls) {
    for (const neighbour of neighbours) {
      const expected = 'names of other walls of walls.csv, with | between them';
      if (neighbour === wall || !names.has(neighbour))
        problems.push({ ...origin, column: 'neighbours', found: quoted(neighbour), expected });
    }
  }
}
