import { describe, expect, it } from 'vitest';
import { itemAt, neighboursIn } from '../../src/plain/in-order.js';

describe('itemAt(items, at)', () => {
  it('counts from 0, or from the end', () => {
    expect([0, 2, -1, -3].map((at) => itemAt(['a', 'b', 'c'], at))).toEqual(['a', 'c', 'c', 'a']);
    expect(itemAt([undefined], 0)).toBeUndefined();
  });

  it.each([3, -4, 0.5, Number.NaN])('refuses the place %s among three', (at) =>
    expect(() => itemAt(['a', 'b', 'c'], at)).toThrow(RangeError),
  );

  it('refuses any place among none', () => expect(() => itemAt([], -1)).toThrow(RangeError));
});

describe('neighboursIn(items)', () => {
  it('pairs each item with the one behind it; one item alone has none', () => {
    expect(neighboursIn(['a', 'b', 'c'])).toEqual([
      ['a', 'b'],
      ['b', 'c'],
    ]);
    expect([neighboursIn(['a']), neighboursIn([])]).toEqual([[], []]);
  });
});
