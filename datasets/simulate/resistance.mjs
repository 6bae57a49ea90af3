import { trueMoisture, withinBrick } from './moisture.mjs';
import { decimals } from './table.mjs';

/**
 * A resistance index: it rises by 4 for each per cent of moisture and by whatever the salts at the place add on that day, and
 * scatters by 3. The numbers are invented and belong to no instrument.
 *
 * @param saltsOn index points that the salts of a wall add on a day
 */
export function readResistance(random, { walls, stations, visits, truth, readerOf, knewArm, saltsOn }) {
  return visits.flatMap((date) =>
    walls.flatMap((wall) =>
      stations
        .filter((station) => station.wall === wall.wall)
        .map((station) => ({
          date,
          wall: wall.wall,
          station: station.station,
          instrument: 'resistance',
          value: decimals(
            20 + 4 * withinBrick(trueMoisture(wall, station, date, truth)) + saltsOn(wall, date) + random.normal(3),
            1,
          ),
          reader: readerOf(wall),
          knew_arm: knewArm,
        })),
    ),
  );
}
