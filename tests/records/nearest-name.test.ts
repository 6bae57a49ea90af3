import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { nearestName } from '../../src/records/index.js';

describe('nearestName(found, names)', () => {
  it.each([
    ['contol', ['treated', 'control'], 'control'],
    ['cnotrol', ['treated', 'control'], 'control'],
    ['Treated', ['treated', 'control'], 'treated'],
    ['matched pairs', ['randomised', 'matched-pairs'], 'matched-pairs'],
    ['mv', ['core', 'mw'], 'mw'],
    ['reading', ['walls', 'readings', 'cores'], 'readings'],
    ['height', ['height_mm', 'depth_mm'], 'height_mm'],
    // Several walls are one letter away: none of them is more likely than the others.
    ['w13', ['w10', 'w11', 'w12'], undefined],
    ['placebo', ['treated', 'control'], undefined],
    ['', ['a', 'why'], undefined],
    ['a', ['b'], undefined],
    ['x', [], undefined],
  ])('%s among %j: %s', (found, names, nearest) => {
    expect(nearestName(found, names)).toBe(nearest);
  });

  const name = fc.stringMatching(/^[a-z]{3,10}$/);

  it('finds a name after any one slip, where no other name is as near', () => {
    fc.assert(
      fc.property(name, fc.nat(), fc.constantFrom('drop', 'double', 'swap', 'exchange'), (word, at, slip) => {
        const index = at % (word.length - 1);
        const [before, here, next, after] = [word.slice(0, index), word[index], word[index + 1], word.slice(index + 2)];
        const slipped = {
          drop: `${before}${next}${after}`,
          double: `${before}${here}${here}${next}${after}`,
          swap: `${before}${next}${here}${after}`,
          exchange: `${before}#${next}${after}`,
        }[slip];
        expect(nearestName(slipped, [word, 'a name unlike any other'])).toBe(word);
      }),
    );
  });

  it('gives one of the names or nothing, and the name itself when it is there', () => {
    fc.assert(
      fc.property(fc.string(), fc.array(fc.string({ minLength: 1 }), { maxLength: 6 }), (found, names) => {
        const nearest = nearestName(found, names);
        if (nearest !== undefined) expect(names).toContain(nearest);
      }),
    );
    fc.assert(
      fc.property(fc.uniqueArray(name, { minLength: 1, maxLength: 6 }), (names) => {
        expect(nearestName(names[0] ?? '', names)).toBe(names[0]);
      }),
    );
  });
});
