import {
  type ArmedWalls,
  armMeans,
  type UnitsOfComparison,
  type WallChange,
  wallsByArm,
} from '../../analysis/index.js';
import { valuesBy } from '../../plain/group-by.js';
import { present } from '../../plain/present.js';
import { mean } from '../../statistics/index.js';
import { type MeanOfWalls, meanOfWalls } from '../cores/mean-of-walls.js';
import { type SideChanges, sideChanges } from './side-changes.js';

interface ChangesOfArm {
  readonly arm: string;
  readonly side: WallChange['side'];
  /** Those that did best first. */
  readonly walls: readonly WallChange[];
  /** Over the units of the comparison: walls, or sites, blocks and stretches where these were allocated. */
  readonly mean: MeanOfWalls;
}

export interface ChangesOfArms {
  readonly arms: readonly ChangesOfArm[];
  /** Where the treated mean would have to lie for the difference to be the margin; absent without margin or untreated walls. */
  readonly marginAt?: number;
  /** Over walls; absent where a side has no wall, or none was read before. */
  readonly sides?: SideChanges;
}

type Answered = ArmedWalls & {
  readonly protocol: {
    readonly confidence: number;
    readonly margin?: number;
    readonly outcome: { readonly better: 'lower' | 'higher' };
  };
  readonly units: Pick<UnitsOfComparison, 'members'>;
};

/**
 * Every wall's change by arm, with each arm's mean over its units and Student's interval of that mean; treated arms first. What is compared is
 * the after value where no wall was read before.
 *
 * @example changesOfArms(opinion).arms.map(({ arm, mean }) => `${arm}: ${mean.walls}`) // ['device: 10']
 */
export function changesOfArms(opinion: Answered): ChangesOfArms {
  const { confidence, margin, outcome } = opinion.protocol;
  const sign = outcome.better === 'lower' ? 1 : -1;
  const unitOf = new Map(
    [...opinion.units.members].flatMap(([unit, walls]) => walls.map((wall) => [wall, unit] as const)),
  );
  const changesOfUnits = (walls: readonly WallChange[]) => {
    const units = valuesBy(
      walls,
      ({ wall }) => unitOf.get(wall) ?? wall,
      ({ change }) => change,
    );
    return [...units.values()].map(mean);
  };
  const arms = wallsByArm(opinion).flatMap(({ arm, side, walls }): ChangesOfArm[] => {
    const found = meanOfWalls(changesOfUnits(walls), confidence);
    if (found === undefined) return [];
    return [{ arm, side, walls: walls.toSorted((one, other) => sign * (one.change - other.change)), mean: found }];
  });
  const untreated = opinion.walls.filter(({ side }) => side === 'untreated');
  const isCompared = untreated.length > 0 && untreated.length < opinion.walls.length;
  const sides = sideChanges(armMeans(opinion));
  return {
    arms,
    ...(margin === undefined || !isCompared ? {} : { marginAt: mean(changesOfUnits(untreated)) - sign * margin }),
    ...present({ sides }),
  };
}
