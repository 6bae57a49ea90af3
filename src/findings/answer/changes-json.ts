import type { ChangesOfArms } from './changes-of-arms.js';

/** As in `opinion.json`: each arm's mean change over the units of the comparison, with the interval that its figure shows. */
export function changesJson({ arms, marginAt, sides }: ChangesOfArms, unit: string) {
  return {
    unit,
    sides: sides === undefined ? null : { ...sides },
    marginAt: marginAt ?? null,
    arms: arms.map(({ arm, side, walls, mean }) => ({
      ...{ arm, side, units: mean.walls, mean: mean.mean },
      interval: mean.interval === undefined ? null : { ...mean.interval },
      walls: walls.map(({ wall }) => wall),
    })),
  };
}
