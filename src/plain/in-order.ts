/**
 * The item at a place, counted from 0 or, below it, from the end. For places that must exist: what is missing is a fault of the
 * program, and is said here rather than carried on as a number that is none.
 *
 * @throws RangeError for a place outside
 * @example itemAt(['a', 'b', 'c'], -1) // 'c'
 */
export function itemAt<Item>(items: readonly Item[], at: number): Item {
  const from = at < 0 ? items.length + at : at;
  // An item may itself be undefined, so that the place is asked for and not the item.
  if (!(from in items)) throw new RangeError(`needs a place among ${items.length} items, got ${at}`);
  return items[from] as Item;
}

/**
 * Each item but the last with the one behind it.
 *
 * @example neighboursIn([1, 4, 9]) // [[1, 4], [4, 9]]
 */
export function neighboursIn<Item>(items: readonly Item[]): readonly (readonly [Item, Item])[] {
  return items.slice(1).map((item, at) => [itemAt(items, at), item] as const);
}
