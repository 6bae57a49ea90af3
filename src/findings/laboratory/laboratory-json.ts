import type { LaboratoryFacts } from './laboratory-of-trial.js';

/** The field `laboratory` of `opinion.json`: trays by arm, rest before the start, and specimens that dried. */
export function laboratoryJson({ arms, rest, drying }: LaboratoryFacts) {
  return {
    arms: arms.map(({ arm, walls, waters, level_mm, before, after }) => ({
      ...{ arm, walls, waters: [...waters] },
      level_mm: level_mm === undefined ? null : [level_mm.least, level_mm.most],
      refill_ml: [before.refill_ml ?? null, after.refill_ml ?? null],
      mass_kg: [before.mass_kg ?? null, after.mass_kg ?? null],
      uptake_kg_m2_d: [before.uptake_kg_m2_d ?? null, after.uptake_kg_m2_d ?? null],
    })),
    rest:
      rest === undefined || rest.kind === 'not-told'
        ? null
        : { walls: rest.walls, trendPer30Days: rest.trendPer30Days, interval: { ...rest.interval } },
    drying: drying.map(({ wall, emptiedOn, weighings, stages }) => ({
      ...{ wall, emptiedOn, weighings },
      stages:
        stages === undefined
          ? null
          : { ...stages, firstInterval: { ...stages.firstInterval }, changeInterval: { ...stages.changeInterval } },
    })),
  };
}
