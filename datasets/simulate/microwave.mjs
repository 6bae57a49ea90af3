import { trueMoisture, withinBrick } from './moisture.mjs';
import { decimals } from './table.mjs';

const detectionLimit = 5;

/**
 * A microwave index: it rises by 5 for each per cent of moisture, scatters by 3, and shows nothing under 5.
 * The numbers are invented and belong to no instrument.
 */
export function readMicrowave(random, { walls, stations, visits, truth, readerOf, knewArm }) {
  return visits.flatMap((date) =>
    walls.flatMap((wall) =>
      stations
        .filter((station) => station.wall === wall.wall)
        .map((station) => {
          const moisture = withinBrick(trueMoisture(wall, station, date, truth));
          return {
            date,
            wall: wall.wall,
            station: station.station,
            instrument: 'microwave',
            value: shown(5 * moisture - 4 + random.normal(3)),
            reader: readerOf(wall),
            knew_arm: knewArm,
          };
        }),
    ),
  );
}

function shown(index) {
  return index < detectionLimit ? `<${detectionLimit}` : decimals(index, 1);
}
