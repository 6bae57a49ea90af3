/** Never empty: a group is there because an item belongs to it. */
export type Group<Item> = [Item, ...Item[]];

/**
 * Items by a key, in the order in which each key comes first; an item whose key is undefined belongs to no group.
 *
 * @example groupBy([3, 8, 5], (number) => number % 2).get(1) // [3, 5]
 */
export function groupBy<Item, Key>(
  items: Iterable<Item>,
  keyOf: (item: Item) => Key | undefined,
): ReadonlyMap<Key, Group<Item>> {
  const groups = new Map<Key, Group<Item>>();
  for (const item of items) {
    const key = keyOf(item);
    if (key !== undefined) addTo(groups, key, item);
  }
  return groups;
}

/**
 * What items say, by a key, in the order in which each key comes first; an item whose key or value is undefined says nothing.
 *
 * @example valuesBy(['ash', 'oak', 'alder'], (name) => name[0], (name) => name.length).get('a') // [3, 5]
 */
export function valuesBy<Item, Key, Value>(
  items: Iterable<Item>,
  keyOf: (item: Item) => Key | undefined,
  valueFrom: (item: Item) => Value | undefined,
): ReadonlyMap<Key, Group<Value>> {
  const groups = new Map<Key, Group<Value>>();
  for (const item of items) {
    const key = keyOf(item);
    const value = key === undefined ? undefined : valueFrom(item);
    if (key !== undefined && value !== undefined) addTo(groups, key, value);
  }
  return groups;
}

/**
 * The different things that items say, by a key, as `valuesBy`; each once.
 *
 * @example distinctBy(['ash', 'oak', 'alder', 'asp'], (name) => name[0], (name) => name.length).get('a').size // 2
 */
export function distinctBy<Item, Key, Value>(
  items: Iterable<Item>,
  keyOf: (item: Item) => Key | undefined,
  valueFrom: (item: Item) => Value | undefined,
): ReadonlyMap<Key, ReadonlySet<Value>> {
  return new Map([...valuesBy(items, keyOf, valueFrom)].map(([key, values]) => [key, new Set(values)]));
}

/** Adds to the group of a key, for groups that are filled one by one. */
export function addTo<Key, Item>(groups: Map<Key, Group<Item>>, key: Key, item: Item): void {
  const group = groups.get(key);
  if (group === undefined) groups.set(key, [item]);
  else group.push(item);
}
