import type { WaterSourcePart } from './water-source-of-trial.js';

/** Where the water may come from, for `opinion.json`; `null` where the folder does not hold it. */
export function waterSourceJson({ facts, signs, possible }: WaterSourcePart) {
  const { heights, depths, hygroscopicShare, rain, surface, salts } = facts;
  return {
    heights:
      heights === undefined ? null : { shape: heights.shape, heights: heights.heights.map((each) => ({ ...each })) },
    depths: depths === undefined ? null : { ...depths },
    hygroscopicShare: hygroscopicShare ?? null,
    rain:
      rain === undefined
        ? null
        : { spearman: rain.estimate, interval: { ...rain.interval }, pValue: rain.pValue, changes: rain.n },
    surface: surface === undefined ? null : { ...surface },
    salts: salts === undefined ? null : { ...salts },
    signs: [...signs],
    possible: possible.map((each) => ({
      source: each.source,
      for: [...each.for],
      against: [...each.against],
      notLookedFor: [...each.notLookedFor],
    })),
  };
}
