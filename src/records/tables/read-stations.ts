import type { Problem, Station } from '../../trial/index.js';
import { cellReader } from '../cells/cell-reader.js';
import { nameCell } from '../cells/name-cell.js';
import type { Table } from '../folder/table.js';
import { quoted } from '../quoted.js';
import type { Known } from './known.js';
import { placeCells } from './places.js';

/** The stations; a name may return on another wall, not on the same one. */
export function readStations(table: Table, known: Pick<Known, 'walls'>, problems: Problem[]): readonly Station[] {
  const cells = cellReader(table, problems);
  const rowsByStation = new Map<string, number>();
  return table.rows.map((row) => {
    const station = cells.needed(row, 'station', 'the name of a station');
    const wall = nameCell(cells, row, 'wall', known.walls);
    const place = placeCells(cells, row);
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
      ...(sensor === undefined ? {} : { sensor }),
      origin: cells.origin(row),
    };
  });
}
