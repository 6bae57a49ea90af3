import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { newtonInBracket } from '../../../../src/statistics/numerics/root-finding/newton-in-bracket.js';

describe('newtonInBracket', () => {
  it('finds cube roots from any start', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -1000, max: 1000, noNaN: true }),
        fc.double({ min: -10, max: 10, noNaN: true }),
        (root, start) => {
          const cube = (x: number) => ({ value: x ** 3 - root ** 3, slope: 3 * x * x });
          const found = newtonInBracket(cube, start, -2000, 2000);
          // At 0 the cube is flat, and steps shrink by a third at a time.
          expect(Math.abs(found - root)).toBeLessThan(1e-7 + 1e-12 * Math.abs(root));
        },
      ),
    );
  });

  it('bisects where the slope is 0 or the value overflows', () => {
    const steep = (x: number) => ({ value: x > 5 ? Number.POSITIVE_INFINITY : x - 1, slope: x > 5 ? Number.NaN : 1 });
    expect(newtonInBracket(steep, 100, -50, 200)).toBeCloseTo(1, 12);
    const flat = (x: number) => ({ value: Math.sign(x - 3), slope: 0 });
    expect(newtonInBracket(flat, 0, -10, 10)).toBeCloseTo(3, 12);
  });
});
