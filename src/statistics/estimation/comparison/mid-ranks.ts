/**
 * Ranks from 1, equal values sharing the mean of theirs; doubled, so that they are whole numbers.
 *
 * @example doubledRanks([3.1, 2.0, 3.1]) // [5, 2, 5]
 */
export function doubledRanks(values: readonly number[]): number[] {
  const order = values.map((_, at) => at).sort((one, other) => (values[one] ?? 0) - (values[other] ?? 0));
  const ranks = new Array<number>(values.length).fill(0);
  for (let from = 0; from < order.length; ) {
    let to = from;
    while (to + 1 < order.length && values[order[to + 1] ?? 0] === values[order[from] ?? 0]) to += 1;
    for (const at of order.slice(from, to + 1)) ranks[at] = from + to + 2;
    from = to + 1;
  }
  return ranks;
}

/** How many values each set of equal values has. */
export function tieSizes(values: readonly number[]): readonly number[] {
  const sizes = new Map<number, number>();
  for (const value of values) sizes.set(value, (sizes.get(value) ?? 0) + 1);
  return [...sizes.values()];
}
