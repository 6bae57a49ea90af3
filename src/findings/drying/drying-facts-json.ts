import { reasonInWords } from '../../labels/index.js';
import type { DryingFacts } from './drying-facts.js';
import type { WaitOfTrial } from './wait-of-trial.js';

/** Evaporation, wait, days of treatment and the air by arm, for the field `drying` of `opinion.json`. */
export function dryingFactsJson({ implied, wait, spread, airOfArms, airBeside }: DryingFacts) {
  return {
    impliedEvaporation:
      implied.kind === 'not-computed'
        ? { reason: reasonInWords(implied.reason) }
        : {
            arms: implied.arms.map((arm) => ({ ...arm })),
            walls: implied.walls.map(({ air, ...wall }) => ({
              ...wall,
              air: { ...air, pressure_pa: air.pressure_pa ?? null },
            })),
            withoutThickness: [...implied.withoutThickness],
          },
    wait: wait === undefined ? null : waitJson(wait),
    treatments: spread === undefined ? null : { ...spread, withoutDay: [...spread.withoutDay] },
    air: {
      cover: airBeside.cover,
      arms: airOfArms === undefined ? null : airOfArms.arms.map((arm) => ({ ...arm })),
      ratio: airOfArms?.ratio ?? null,
      unlike: airOfArms?.airUnlike ?? null,
    },
  };
}

function waitJson({ walls, withoutDay, worst, tooEarly, beforeLeast, reason }: WaitOfTrial) {
  return {
    walls: walls.map(({ wait, ...wall }) => ({
      ...wall,
      wait: wait === undefined ? null : { ...wait, assumed: [...wait.assumed] },
    })),
    withoutDay: [...withoutDay],
    worst: worst?.wall ?? null,
    tooEarly,
    beforeLeast,
    reason: reason === undefined ? null : reasonInWords(reason),
  };
}
