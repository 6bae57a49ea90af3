import { present } from '../../plain/present.js';
import type { DepthInterval, Problem, Station } from '../../trial/index.js';
import { type CellReader, cellReader } from '../cells/cell-reader.js';
import { nameCell } from '../cells/name-cell.js';
import { numberCell } from '../cells/number-cell.js';
import type { Table, TableRow } from '../folder/table.js';
import { quoted } from '../quoted.js';
import type { Known } from './known.js';
import { depthRule, type Place, placeCells } from './places.js';

/** The stations; a name may return on another wall, not on the same one. */
export function readStations(table: Table, known: Pick<Known, 'walls'>, problems: Problem[]): readonly Station[] {
  const cells = cellReader(table, problems);
  const rowsByStation = new Map<string, number>();
  return table.rows.map((row) => {
    const station = cells.needed(row, 'station', 'the name of a station');
    const wall = nameCell(cells, row, 'wall', known.walls);
    const depths_mm = depthsOf(cells, row);
    const place = placeWithin(cells, row, depths_mm);
    const sensor = cells.text(row, 'sensor');
    const key = JSON.stringify([wall, station]);
    const earlier = rowsByStation.get(key);
    if (earlier === undefined) rowsByStation.set(key, row.row);
    else if (station !== '' && wall !== '') {
      const found = `the station ${quoted(station)} of wall ${quoted(wall)} again, after row ${earlier}`;
      cells.refuseAs(row, 'station', found, 'each station of a wall once');
    }
    return {
      station,
      wall,
      ...place,
      ...present({ depths_mm, sensor }),
      origin: cells.origin(row),
    };
  });
}

/** Both ends of a core, or neither. */
function depthsOf(cells: CellReader, row: TableRow): DepthInterval | undefined {
  const from = numberCell(cells, row, 'depth_from_mm', depthRule);
  const to = numberCell(cells, row, 'depth_to_mm', depthRule);
  if (from !== undefined && to !== undefined) {
    if (from < to) return { from, to };
    cells.refuse(row, 'depth_to_mm', `a depth in mm beyond depth_from_mm, ${from}`);
    return undefined;
  }
  const alone = cells.text(row, 'depth_from_mm') === undefined ? 'depth_to_mm' : 'depth_from_mm';
  const other = alone === 'depth_to_mm' ? 'depth_from_mm' : 'depth_to_mm';
  if (cells.text(row, alone) !== undefined && cells.text(row, other) === undefined)
    cells.refuseAs(row, alone, `${alone} without ${other}`, 'both ends of the core, or neither');
  return undefined;
}

/** The middle of the core stands for its depth where none is stated beside it. */
function placeWithin(cells: CellReader, row: TableRow, depths: DepthInterval | undefined): Place | undefined {
  const place = placeCells(cells, row);
  if (depths === undefined) return place;
  const stated = place?.depth_mm;
  if (stated !== undefined && (stated < depths.from || stated > depths.to))
    cells.refuse(row, 'depth_mm', `a depth inside the core, from ${depths.from} to ${depths.to} mm; or leave it empty`);
  return { ...place, depth_mm: stated ?? (depths.from + depths.to) / 2 };
}
