import { describe, expect, it } from 'vitest';
import { covariate, designMatrix, factor, interaction, intercept } from '../../../../src/statistics/index.js';

const arm = factor('arm', ['treated', 'control', 'treated'], { reference: 'control' });

describe('designMatrix(terms)', () => {
  it('names and fills one column for the intercept, each level but the reference, and each covariate', () => {
    expect(designMatrix([intercept(), arm, covariate('before', [4, 5, 6])]).columns).toEqual([
      { name: 'intercept', values: [1, 1, 1] },
      { name: 'arm: treated', values: [1, 0, 1] },
      { name: 'before', values: [4, 5, 6] },
    ]);
  });

  it('gives every level a column where no reference is named, in an order that the rows do not change', () => {
    const names = (values: string[]) => designMatrix([factor('block', values)]).columns.map(({ name }) => name);
    expect(names(['b', 'a', 'c'])).toEqual(['block: a', 'block: b', 'block: c']);
    expect(names(['c', 'b', 'a'])).toEqual(['block: a', 'block: b', 'block: c']);
  });

  it('keeps the order of stated levels', () => {
    const term = factor('visit', ['after', 'before', 'after'], { levels: ['before', 'after'] });
    expect(designMatrix([term]).columns.map(({ name }) => name)).toEqual(['visit: before', 'visit: after']);
  });

  it('multiplies every column of one term by every column of another', () => {
    const term = interaction(arm, covariate('before', [4, 5, 6]));
    expect(designMatrix([term]).columns).toEqual([{ name: 'arm: treated × before', values: [4, 0, 6] }]);
  });

  it('refuses terms of different lengths, naming both', () => {
    expect(() => designMatrix([intercept(), arm, covariate('before', [4, 5])])).toThrow(
      expect.objectContaining({
        fault: 'lengths-differ',
        message: expect.stringContaining('"arm" has 3 and "before" has 2'),
      }),
    );
  });

  it.each([
    ['no terms', []],
    ['an intercept alone', [intercept()]],
    ['a covariate without values', [covariate('x', [])]],
  ])('refuses %s', (_what, terms) => {
    expect(() => designMatrix(terms)).toThrow(expect.objectContaining({ fault: 'too-few' }));
  });
});

describe('factor(name, values, options)', () => {
  it.each([
    [
      'a reference without observations',
      { reference: 'sham' },
      'empty-level',
      '"arm" has no observation at level "sham"',
    ],
    ['a level without observations', { levels: ['a', 'b', 'sham'] }, 'empty-level', '"sham"'],
    ['a level that is not stated', { levels: ['a'] }, 'out-of-range', 'holds "b"'],
    ['a level stated twice', { levels: ['a', 'b', 'a'] }, 'out-of-range', 'each level once'],
  ])('refuses %s', (_what, options, fault, words) => {
    expect(() => factor('arm', ['a', 'b', 'a'], options)).toThrow(
      expect.objectContaining({ fault, message: expect.stringContaining(words) }),
    );
  });
});
