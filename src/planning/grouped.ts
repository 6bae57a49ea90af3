/** Items by a key, in the order in which each key comes first. */
export function grouped<Item>(
  items: readonly Item[],
  keyOf: (item: Item) => string,
): ReadonlyMap<string, readonly Item[]> {
  const groups = new Map<string, Item[]>();
  for (const item of items) {
    const key = keyOf(item);
    const known = groups.get(key);
    if (known === undefined) groups.set(key, [item]);
    else known.push(item);
  }
  return groups;
}
