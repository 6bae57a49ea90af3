import { askBeliefs } from './beliefs.mjs';
import { readClimate } from './climate.mjs';
import { drillCores } from './cores.mjs';
import { readMicrowave } from './microwave.mjs';
import { randomSource } from './random-source.mjs';
import { pairedWalls, stationsOf } from './walls.mjs';

/**
 * Everything recorded in a trial of paired walls with a sham: each pair is read by one reader, who does not know the
 * arms, so that readers, visits and places are the same for both.
 */
export function pairedTrial(plan) {
  const random = randomSource(plan.seed);
  const walls = pairedWalls(random, plan.walls);
  const stations = stationsOf(random, walls, plan.stations);
  const readerOf = (wall) => (Number(wall.block.slice(1)) % 2 === 0 ? 'R1' : 'R2');
  const common = { walls, truth: plan.truth, readerOf, knewArm: 'no' };
  const cores = drillCores(random, { ...common, stations, visits: plan.coreVisits, ...plan.scatter });
  const shallowest = Math.min(...stations.map((station) => station.depth_mm));
  const readings = readMicrowave(random, {
    ...common,
    stations: stations.filter((station) => station.depth_mm === shallowest),
    visits: plan.microwaveVisits,
  });
  const climate = readClimate(random, plan.climate);
  const beliefs = askBeliefs(random, {
    walls,
    date: plan.beliefsAskedOn,
    arms: [plan.walls.arms.treated, plan.walls.arms.untreated],
    people: (wall) => [
      { person: readerOf(wall), role: 'reader' },
      { person: `occupant of ${wall.site}`, role: 'occupant' },
    ],
  });
  return { walls, stations, cores, readings, climate, beliefs };
}
