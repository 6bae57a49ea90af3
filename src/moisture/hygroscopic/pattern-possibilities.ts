import type { HeightPattern, HeightShape } from './height-pattern.js';

export type MoistureCause = 'rising-damp' | 'hygroscopic-salts' | 'condensation' | 'penetration' | 'leak';

/** What of the pattern a cause would make; its words stand in `report/words/cause-in-words.ts`. */
export type CauseSign =
  | { readonly sign: Exclude<CauseSignCode, 'salts-peak'> }
  | { readonly sign: 'salts-peak'; readonly height_mm: number };

type CauseSignCode =
  | 'wettest-at-foot'
  | 'foot-splashed'
  | 'foot-coldest'
  | 'wettest-at-head'
  | 'rain-runs-down'
  | 'wet-over-whole-face'
  | 'cold-throughout'
  | 'enters-at-one-height'
  | 'fitting-at-one-height'
  | 'dried-from-below'
  | 'salts-peak'
  | 'salt-band-left-behind'
  | 'no-excess';

/** Something that would make such a pattern. Not a diagnosis: others would too. */
export interface Possibility {
  readonly cause: MoistureCause;
  readonly because: CauseSign;
}

const fits = (cause: MoistureCause, sign: Exclude<CauseSignCode, 'salts-peak'>): Possibility => ({
  cause,
  because: { sign },
});

/**
 * What an excess over height fits. The reasoning follows the interpretation in BRE Digest 245 (from memory) and common
 * practice; it has no further source.
 */
const byShapeOfExcess: Readonly<Record<HeightShape, readonly Possibility[]>> = {
  falling: [
    fits('rising-damp', 'wettest-at-foot'),
    fits('penetration', 'foot-splashed'),
    fits('condensation', 'foot-coldest'),
  ],
  rising: [fits('leak', 'wettest-at-head'), fits('penetration', 'rain-runs-down')],
  flat: [fits('penetration', 'wet-over-whole-face'), fits('condensation', 'cold-throughout')],
  peaked: [
    fits('penetration', 'enters-at-one-height'),
    fits('leak', 'fitting-at-one-height'),
    fits('rising-damp', 'dried-from-below'),
  ],
  undecided: [],
};

/**
 * A plain reading of the patterns of excess and of hygroscopic moisture over height: what would fit, and never a diagnosis. Where no height holds a clear excess, no liquid supply is needed to explain the moisture, whatever the shape.
 *
 * @example
 * const patternOf = (values) => heightPattern(
 *   values.map((value_pct, at) => ({ height_mm: 200 + 400 * at, value_pct, standardUncertainty_pp: 0.3 })),
 *   { relevantDifference_pp: 1 },
 * );
 * patternPossibilities(patternOf([8, 5, 2]), patternOf([2, 2.1, 2]))[0].cause // 'rising-damp'
 */
export function patternPossibilities(excess: HeightPattern, hygroscopic: HeightPattern): readonly Possibility[] {
  // Undecided is not none: then nothing is said.
  const noExcess = excess.shape !== 'undecided' && excess.highest.lower_pct <= 0;
  const ofExcess = noExcess ? [] : byShapeOfExcess[excess.shape];
  return [...ofExcess, ...fromHygroscopic(noExcess, hygroscopic)];
}

function fromHygroscopic(noExcess: boolean, hygroscopic: HeightPattern): readonly Possibility[] {
  if (hygroscopic.shape === 'peaked') {
    return [
      {
        cause: 'hygroscopic-salts',
        because: { sign: 'salts-peak', height_mm: hygroscopic.highest.height_mm },
      },
      fits('rising-damp', 'salt-band-left-behind'),
    ];
  }
  return noExcess ? [fits('hygroscopic-salts', 'no-excess')] : [];
}
