import type { CellReader } from '../cells/cell-reader.js';
import type { TableRow } from '../folder/table.js';
import { nearestName } from '../nearest-name.js';
import { alternatives, quoted } from '../quoted.js';
import type { Known } from './known.js';

/**
 * The station of a reading or core: empty for the wall as a whole. Where the folder lists its stations, it must be one of
 * the row's wall; a station of another wall is named as such.
 */
export function stationCell(cells: CellReader, row: TableRow, wall: string, known: Known): string {
  const station = cells.text(row, 'station') ?? '';
  const { stations, walls } = known;
  if (station === '' || stations === undefined || stations.has(wall, station)) return station;
  // An unknown wall has been named already, and has no stations to compare with.
  if (walls !== undefined && !walls.has(wall)) return station;
  const elsewhere = stations.wallsOf(station);
  const names = stations.namesOn(wall);
  const here =
    names.length === 0
      ? `nothing, as stations.csv lists no station of wall ${quoted(wall)}`
      : `a station of wall ${quoted(wall)}${names.length <= 8 ? `: ${alternatives(names)}` : ', as stations.csv lists them'}`;
  if (elsewhere.length > 0) {
    const others = elsewhere.length > 3 ? 'other walls' : `wall ${alternatives(elsewhere.map(quoted))}`;
    cells.refuseAs(row, 'station', `${quoted(station)}, a station of ${others}`, here);
  } else cells.refuse(row, 'station', here, nearestName(station, names));
  return station;
}
