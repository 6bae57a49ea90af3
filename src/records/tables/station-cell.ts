import type { CellReader } from '../cells/cell-reader.js';
import type { TableRow } from '../folder/table.js';
import { alternatives, quoted } from '../quoted.js';
import type { Known } from './known.js';
import { placeCells } from './places.js';

/**
 * The station of a reading or core, by its name or by the place that the row gives: empty for the wall as a whole. Where the folder lists its stations, it must be one of
 * the row's wall; a station of another wall is named as such.
 */
export function stationCell(
  cells: CellReader,
  row: TableRow,
  wall: string,
  { stations, walls, places }: Known,
): string {
  const station = cells.text(row, 'station') ?? '';
  const place = placeCells(cells, row);
  if (place !== undefined && (station === '' || stations === undefined))
    return wall === '' ? station : places.stationAt(cells, row, wall, station, place);
  if (station === '' || stations === undefined) return station;
  const here = stations.on(wall);
  const known = here?.has(station) === true ? station : here?.inOtherCase(station);
  if (known !== undefined) {
    if (known !== station) cells.mended(row, 'station', 'name', known);
    return place === undefined ? known : places.stationAt(cells, row, wall, known, place);
  }
  // An unknown wall has been named already, and has no stations to compare with.
  if (walls !== undefined && !walls.has(wall)) return station;
  const expected = here?.expected ?? `nothing, as stations.csv lists no station of wall ${quoted(wall)}`;
  const elsewhere = stations.wallsWith(station);
  if (elsewhere.length > 0) {
    const others = elsewhere.length > 3 ? 'other walls' : `wall ${alternatives(elsewhere.map(quoted))}`;
    cells.refuseAs(row, 'station', `${quoted(station)}, a station of ${others}`, expected);
  } else cells.refuse(row, 'station', expected, here?.nearest(station));
  return station;
}
