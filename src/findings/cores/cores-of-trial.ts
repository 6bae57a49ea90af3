import type { Side } from '../../analysis/index.js';
import { present } from '../../plain/present.js';
import type { Trial } from '../../trial/index.js';
import { batchGroups } from './batch-groups.js';
import type { ArmName, CoresPart } from './cores-part.js';
import { hygroscopicParts } from './hygroscopic-parts.js';
import { mapsOfArm } from './maps-of-arm.js';
import { placedCores } from './placed-cores.js';
import { type PlacesOfWall, placesOfWalls } from './places-of-walls.js';
import { reusedCores } from './reused-cores.js';
import { unitsOfTrade } from './units-of-trade.js';
import { frontsOfArm, waterOfArm } from './water-and-fronts.js';

/** What the cores say beyond the answer; nothing where they say no more. */
export function coresOfTrial(trial: Trial, sides: ReadonlyMap<string, Side>): CoresPart | undefined {
  const cores = placedCores(trial, sides);
  if (cores.length === 0) return undefined;
  const level = trial.protocol.confidence;
  const walls = placesOfWalls(cores);
  const eachArm = <Facts>(
    factsOf: (walls: readonly PlacesOfWall[]) => Facts | undefined,
  ): readonly (Facts & ArmName)[] =>
    armsOf(trial, sides).flatMap((name) => {
      const facts = factsOf(walls.filter(({ wall }) => wall.arm === name.arm));
      return facts === undefined ? [] : [{ ...name, ...facts }];
    });
  const batches = batchGroups(trial);
  const reused = reusedCores(trial, cores);
  const hygroscopic = hygroscopicParts(trial, cores);
  const isDensityStated = walls.some(({ wall }) => wall.dryDensity_kg_m3 !== undefined);
  const units = unitsOfTrade(trial, level);
  const water = isDensityStated ? eachArm((own) => waterOfArm(own, level)) : [];
  const fronts = eachArm((own) => frontsOfArm(own, level)).filter((arm) => arm.walls > 0);
  const maps = eachArm(mapsOfArm);
  const part: CoresPart = {
    ...(batches.length === 0 ? {} : { batches }),
    ...present({ reused, hygroscopic }),
    ...(units.length === 0 ? {} : { units }),
    ...(water.some(({ means }) => means !== undefined) ? { water } : {}),
    ...(fronts.length === 0 ? {} : { fronts }),
    ...(maps.length === 0 ? {} : { maps }),
  };
  return Object.keys(part).length === 0 ? undefined : part;
}

/** The arms of the comparison, treated ones first. */
function armsOf({ protocol, walls }: Trial, sides: ReadonlyMap<string, Side>): readonly ArmName[] {
  const arms = protocol.arms.flatMap(({ arm }): ArmName[] => {
    const wall = walls.find((each) => each.arm === arm);
    const side = wall === undefined ? undefined : sides.get(wall.wall);
    return side === undefined ? [] : [{ arm, side }];
  });
  return [...arms.filter(({ side }) => side === 'treated'), ...arms.filter(({ side }) => side === 'untreated')];
}
