import { trueMoisture, withinBrick } from './moisture.mjs';
import { decimals } from './table.mjs';

/**
 * One core per station and visit, drilled beside the last one. Its moisture is the station's, moved by the day
 * (`visitSpread`, shared by the wall) and by the spot (`spotSpread`); its masses are what a balance with steps of
 * 0.01 g shows.
 */
export function drillCores(random, { walls, stations, visits, truth, visitSpread, spotSpread, readerOf, knewArm }) {
  return visits.flatMap((date) =>
    walls.flatMap((wall) => {
      const day = random.normal(visitSpread);
      return stations
        .filter((station) => station.wall === wall.wall)
        .map((station) => {
          const moisture = trueMoisture(wall, station, date, truth) + day + random.normal(spotSpread);
          const masses = weigh(random, withinBrick(moisture));
          return {
            date,
            wall: wall.wall,
            station: station.station,
            sample: `${station.station}-${date.replaceAll('-', '').slice(2)}`,
            ...masses,
            reader: readerOf(wall),
            knew_arm: knewArm,
          };
        });
    }),
  );
}

/** Container, wet and dry mass of one core, container included, to 0.01 g. */
function weigh(random, moisture) {
  const container = random.between(11.4, 12.6);
  const dryBrick = random.between(30, 60);
  return {
    container_g: decimals(container, 2),
    wet_g: decimals(container + dryBrick * (1 + moisture / 100), 2),
    dry_g: decimals(container + dryBrick, 2),
  };
}

/** Adds the mass after equilibrium in humid air: salts and fine pores take up `uptake` per cent, which spreads from core to core. */
export function conditionInHumidAir(random, cores, { uptake, spread }) {
  return cores.map((core) => {
    const { reader, knew_arm, ...before } = core;
    const dryBrick = Number(core.dry_g) - Number(core.container_g);
    const taken = Math.max(0.1, uptake + random.normal(spread));
    return { ...before, humid_g: decimals(Number(core.dry_g) + (dryBrick * taken) / 100, 2), reader, knew_arm };
  });
}
