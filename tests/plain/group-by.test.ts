import fc from 'fast-check';
import { describe, expect, expectTypeOf, it } from 'vitest';
import { addTo, distinctBy, type Group, groupBy, valuesBy } from '../../src/plain/group-by.js';

const parity = (number: number) => number % 2;

describe('groupBy(items, keyOf)', () => {
  it('keeps the order in which keys first come, and that of items inside a group', () => {
    expect([...groupBy([3, 8, 5, 2], parity)]).toEqual([
      [1, [3, 5]],
      [0, [8, 2]],
    ]);
    expect([...groupBy([], parity)]).toEqual([]);
  });

  it('leaves out an item whose key is undefined, and no other', () => {
    const keys = [undefined, 0, '', false, null];
    expect([...groupBy(keys, (key) => key).keys()]).toEqual([0, '', false, null]);
  });

  it('takes whatever can be walked over', () => {
    expect(groupBy(['a', 'b', 'a'].entries(), ([, name]) => name).get('a')).toEqual([
      [0, 'a'],
      [2, 'a'],
    ]);
  });

  it('against filtering by each key', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 0, max: 5 })), (items) => {
        const groups = groupBy(items, (item) => item);
        expect([...groups.keys()]).toEqual([...new Set(items)]);
        for (const [key, own] of groups) expect(own).toEqual(items.filter((item) => item === key));
      }),
    );
  });

  it('types a group as never empty', () => {
    expectTypeOf(groupBy([1], parity)).toEqualTypeOf<ReadonlyMap<number, Group<number>>>();
  });
});

describe('valuesBy(items, keyOf, valueFrom) and distinctBy', () => {
  const read = [
    { wall: 'W1', value: 3 },
    { wall: 'W2', value: undefined },
    { wall: undefined, value: 4 },
    { wall: 'W1', value: 3 },
    { wall: 'W1', value: 0 },
  ];
  const [wall, value] = [(one: (typeof read)[number]) => one.wall, (one: (typeof read)[number]) => one.value];

  it('leave out what has no key or no value, so that no group is empty', () => {
    expect([...valuesBy(read, wall, value)]).toEqual([['W1', [3, 3, 0]]]);
    expect([...distinctBy(read, wall, value)]).toEqual([['W1', new Set([3, 0])]]);
  });

  it('ask for no value of an item without a key', () => {
    const asked: unknown[] = [];
    valuesBy(read, wall, (one) => asked.push(one.wall));
    expect(asked).not.toContain(undefined);
  });
});

describe('addTo(groups, key, item)', () => {
  it('begins a group, and adds to it', () => {
    const groups = new Map<string, Group<number>>();
    for (const number of [1, 2]) addTo(groups, 'a', number);
    expect([...groups]).toEqual([['a', [1, 2]]]);
  });
});
