/** A height at which walls are read, and what for. */
export interface ReadingPlace {
  readonly height_mm: number;
  readonly role: 'foot' | 'middle' | 'head' | 'above-the-damp' | 'as-planned';
}

/** How high damp from the ground commonly stands where nobody measured it: about a metre (common practice, no source). */
export const assumedDampTop_mm = 1000;
/** Above the plinth and the splash of rain, and low enough for the wettest place (our convention). */
const foot_mm = 150;
/** So far above the damp that nothing of it is left (our convention). */
const above_mm = 400;

/** Which of the four are read where a plan has fewer places than that: the middle first, then what it is to be held against. */
const priority: readonly ReadingPlace['role'][] = ['middle', 'foot', 'above-the-damp', 'head'];

/**
 * The heights that the plan states, or as many as it wants of these: the foot, the middle and the head of the damp, one height above it, and
 * more between foot and head. What a treatment against rising damp cannot reach is a negative control.
 *
 * @example readingPlaces({ stations: 4, dampTop_mm: 900 }).map(({ height_mm }) => height_mm) // [150, 525, 900, 1300]
 */
export function readingPlaces(stated: {
  readonly stations: number;
  readonly heights_mm?: readonly number[];
  readonly dampTop_mm?: number;
}): readonly ReadingPlace[] {
  const { stations, heights_mm } = stated;
  if (heights_mm !== undefined)
    return heights_mm
      .toSorted((one, other) => one - other)
      .map((height_mm) => ({ height_mm, role: 'as-planned' as const }));
  const head = Math.max(stated.dampTop_mm ?? assumedDampTop_mm, 2 * foot_mm);
  const four: readonly ReadingPlace[] = [
    { height_mm: foot_mm, role: 'foot' },
    { height_mm: Math.round((foot_mm + head) / 2), role: 'middle' },
    { height_mm: head, role: 'head' },
    { height_mm: head + above_mm, role: 'above-the-damp' },
  ];
  const wanted = new Set(priority.slice(0, stations));
  const between = Math.max(0, stations - four.length);
  const further = Array.from({ length: between }, (_, at): ReadingPlace => {
    // Never on the middle itself.
    const share = (at + 1) / (between + 1);
    return { height_mm: Math.round(foot_mm + (head - foot_mm) * (share === 0.5 ? 0.45 : share)), role: 'middle' };
  });
  return [...four.filter(({ role }) => wanted.has(role)), ...further].toSorted(
    (one, other) => one.height_mm - other.height_mm,
  );
}
