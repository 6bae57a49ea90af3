import type { Problem, Station } from '../../trial/index.js';
import { quoted } from '../quoted.js';

/**
 * Where each sensor of a log sits: at the station whose `sensor` it is; where no station names one, the stations' own
 * names are the sensors'.
 */
export function placeSensors(
  stations: readonly Station[],
  file: string,
  problems: Problem[],
): ReadonlyMap<string, Station> {
  const named = stations.filter(({ sensor }) => sensor !== undefined);
  const column = named.length > 0 ? 'sensor' : 'station';
  const places = new Map<string, Station>();
  for (const station of named.length > 0 ? named : stations) {
    const sensor = station.sensor ?? station.station;
    const earlier = places.get(sensor);
    if (earlier === undefined) places.set(sensor, station);
    else {
      const found = `${quoted(sensor)} again, after row ${earlier.origin.row}`;
      const expected = `each sensor of ${file} at one station; name the sensors in a column sensor`;
      problems.push({ file: station.origin.file, row: station.origin.row, column, found, expected });
    }
  }
  return places;
}
