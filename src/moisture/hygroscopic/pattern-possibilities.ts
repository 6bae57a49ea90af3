import type { HeightPattern, HeightShape } from './height-pattern.js';

export type MoistureCause =
  | 'rising damp'
  | 'hygroscopic salts'
  | 'condensation'
  | 'penetration'
  | 'plumbing or roof leak';

/** Something that would make such a pattern. Not a diagnosis: others would too. */
export interface Possibility {
  readonly cause: MoistureCause;
  readonly because: string;
  /** What else to look at to tell it from the others. */
  readonly tellApart: string;
}

export interface PatternReading {
  readonly possibilities: readonly Possibility[];
  /** To be printed wherever the possibilities are. */
  readonly caution: string;
}

const caution =
  'These are possibilities that fit the pattern over height, not a diagnosis. No pattern settles that it is rising damp, and several causes may act together.';

const rising = (because: string): Possibility => ({
  cause: 'rising damp',
  because,
  tellApart: 'ground levels, drains and splash; whether inner and outer face and the neighbouring walls show it too',
});
const penetration = (because: string): Possibility => ({
  cause: 'penetration',
  because,
  tellApart: 'weather side, defects of joints and render, readings after driving rain',
});
const condensation = (because: string): Possibility => ({
  cause: 'condensation',
  because,
  tellApart: 'surface temperature against dew point over weeks; whether the moisture is only near the surface',
});
const leak = (because: string): Possibility => ({
  cause: 'plumbing or roof leak',
  because,
  tellApart: 'pipes, gutters and roof; whether it is local along the wall',
});
const salts = (because: string): Possibility => ({
  cause: 'hygroscopic salts',
  because,
  tellApart: 'salt analysis by height; readings in a dry and in a humid season',
});

/**
 * What an excess over height fits. The reasoning follows the interpretation in BRE Digest 245 (from memory) and common
 * practice; it has no further source.
 */
const byShapeOfExcess: Readonly<Record<HeightShape, readonly Possibility[]>> = {
  falling: [
    rising('more liquid water at the base than higher up fits a supply from the ground'),
    penetration('splash, high ground or a leaking drain wets the foot of a wall too'),
    condensation('the foot of a wall is often its coldest part'),
  ],
  rising: [
    leak('more liquid water higher up fits a supply from above'),
    penetration('rain entering higher up runs down inside'),
  ],
  flat: [
    penetration('an excess alike at all heights fits wetting over the whole face'),
    condensation('an excess alike at all heights fits a surface that is cold throughout'),
  ],
  peaked: [
    penetration('an excess at one height fits water that enters there'),
    leak('an excess at one height fits a pipe or a fitting there'),
    rising('where a wall has begun to dry from below, the excess is left higher up'),
  ],
  undecided: [],
};

/**
 * A plain reading of the patterns of excess and of hygroscopic moisture over height: what would fit, and what would tell
 * it apart. Where no height holds a clear excess, no liquid supply is needed to explain the moisture, whatever the shape.
 *
 * @example
 * const patternOf = (values) => heightPattern(
 *   values.map((value_pct, at) => ({ height_mm: 200 + 400 * at, value_pct, standardUncertainty_pp: 0.3 })),
 *   { relevantDifference_pp: 1 },
 * );
 * patternPossibilities(patternOf([8, 5, 2]), patternOf([2, 2.1, 2])).possibilities[0].cause // 'rising damp'
 */
export function patternPossibilities(excess: HeightPattern, hygroscopic: HeightPattern): PatternReading {
  // Undecided is not none: then nothing is said.
  const noExcess = excess.shape !== 'undecided' && excess.highest.lower_pct <= 0;
  const ofExcess = noExcess ? [] : byShapeOfExcess[excess.shape];
  return { possibilities: [...ofExcess, ...fromHygroscopic(noExcess, hygroscopic)], caution };
}

function fromHygroscopic(noExcess: boolean, hygroscopic: HeightPattern): readonly Possibility[] {
  if (hygroscopic.shape === 'peaked') {
    return [
      salts(`hygroscopic moisture peaks at ${hygroscopic.highest.height_mm} mm, as a band of salts would make it`),
      rising('a band of salts is what water that rose and evaporated there, now or long ago, leaves behind'),
    ];
  }
  if (noExcess) return [salts('no clear excess over what humid air alone would give: no liquid supply is needed')];
  return [];
}
