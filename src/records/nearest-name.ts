/**
 * The one valid name that a mistyped one most likely stands for, or nothing where none is close or two are equally close.
 *
 * Upper and lower case, and the choice between blank, hyphen and underscore, count as no difference. Otherwise up to a
 * third of the letters may be dropped, added, exchanged or swapped with their neighbour (optimal string alignment
 * distance; one such slip is allowed in names of two letters).
 *
 * @example nearestName('contol', ['treated', 'control']) // 'control'
 */
export function nearestName(found: string, names: Iterable<string>): string | undefined {
  const wanted = normalised(found);
  let best: string | undefined;
  let bestDistance = Number.POSITIVE_INFINITY;
  let tied = false;
  for (const name of names) {
    const candidate = normalised(name);
    const allowed = slipsAllowed(Math.max(candidate.length, wanted.length));
    if (Math.abs(candidate.length - wanted.length) > allowed) continue;
    const distance = alignmentDistance(wanted, candidate);
    if (distance > allowed || distance > bestDistance) continue;
    tied = distance === bestDistance && name !== best;
    best = name;
    bestDistance = distance;
  }
  return tied ? undefined : best;
}

function normalised(name: string): string {
  return name
    .trim()
    .toLowerCase()
    .replace(/[\s_-]+/g, '-')
    .slice(0, 100);
}

function slipsAllowed(length: number): number {
  return length < 2 ? 0 : Math.max(1, Math.floor(length / 3));
}

/** Fewest insertions, deletions, exchanges and swaps of neighbours that turn one word into the other. */
function alignmentDistance(from: string, to: string): number {
  let beforePrevious: number[] = [];
  let previous = Array.from({ length: to.length + 1 }, (_, column) => column);
  for (let row = 1; row <= from.length; row++) {
    const current = [row];
    for (let column = 1; column <= to.length; column++) {
      const same = from[row - 1] === to[column - 1];
      let least = Math.min(
        (previous[column] as number) + 1,
        (current[column - 1] as number) + 1,
        (previous[column - 1] as number) + (same ? 0 : 1),
      );
      const swapped = row > 1 && column > 1 && from[row - 1] === to[column - 2] && from[row - 2] === to[column - 1];
      if (swapped) least = Math.min(least, (beforePrevious[column - 2] as number) + 1);
      current.push(least);
    }
    beforePrevious = previous;
    previous = current;
  }
  return previous[to.length] as number;
}
