import { integerBelow } from './integer-below.js';
import type { RandomStream } from './random-stream.js';

/**
 * The items in a random order, every order equally likely (Fisher and Yates). The input is left as it was.
 *
 * @example shuffled(randomStream(1), ['a', 'b', 'c', 'd']) // ['b', 'c', 'a', 'd']
 */
export function shuffled<Item>(stream: RandomStream, items: readonly Item[]): Item[] {
  const order = [...items];
  for (let last = order.length - 1; last > 0; last--) {
    const other = integerBelow(stream, last + 1);
    const moved = order[last] as Item;
    order[last] = order[other] as Item;
    order[other] = moved;
  }
  return order;
}
