export type HeightShape = 'falling' | 'rising' | 'flat' | 'peaked' | 'undecided';

export interface ShapeOfHeights {
  readonly shape: HeightShape;
  /** For `undecided`: what stood in the way. */
  readonly because?: 'hidden-by-uncertainty' | 'falls-and-rises';
}

/** What two heights differ by, the lower less the upper, and how much of that chance may make: percentage points. */
export interface HeightDifference {
  readonly difference_pp: number;
  readonly reach_pp: number;
}

/**
 * The shape that comparisons of every two heights give, by the rules that `heightPattern` states.
 *
 * @param heights how many there are; `between` gets two of their places, from the lowest up
 */
export function heightShape(
  heights: number,
  between: (lower: number, upper: number) => HeightDifference,
  relevant_pp: number,
): ShapeOfHeights {
  const pairs = Array.from({ length: heights }, (_, upper) =>
    Array.from({ length: upper }, (_, lower) => ({ lower, upper, ...between(lower, upper) })),
  ).flat();
  const falling = pairs.filter(({ difference_pp, reach_pp }) => difference_pp > reach_pp);
  const rising = pairs.filter(({ difference_pp, reach_pp }) => -difference_pp > reach_pp);
  if (falling.length > 0 && rising.length > 0) {
    // A height that is reached by a clear rise and left by a clear fall is a peak; the other way round, a dip.
    const peaks = rising.some(({ upper }) => falling.some(({ lower }) => lower === upper));
    const dips = falling.some(({ upper }) => rising.some(({ lower }) => lower === upper));
    return peaks && !dips ? { shape: 'peaked' } : { shape: 'undecided', because: 'falls-and-rises' };
  }
  if (falling.length > 0) return { shape: 'falling' };
  if (rising.length > 0) return { shape: 'rising' };
  const mayMatter = pairs.some(({ difference_pp, reach_pp }) => Math.abs(difference_pp) + reach_pp > relevant_pp);
  return mayMatter ? { shape: 'undecided', because: 'hidden-by-uncertainty' } : { shape: 'flat' };
}
