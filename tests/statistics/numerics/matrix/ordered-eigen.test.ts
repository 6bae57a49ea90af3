import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { orderedEigen } from '../../../../src/statistics/numerics/matrix/ordered-eigen.js';

const symmetric = fc.integer({ min: 1, max: 9 }).chain((size) =>
  fc
    .array(fc.oneof(fc.constant(0), fc.double({ min: -5, max: 5, noNaN: true })), {
      minLength: size * size,
      maxLength: size * size,
    })
    .map((entries) => ({
      size,
      matrix: Float64Array.from(entries, (_, index) => {
        const [row, column] = [Math.floor(index / size), index % size];
        return entries[Math.min(row, column) * size + Math.max(row, column)]!;
      }),
    })),
);

describe('orderedEigen(matrix, size)', () => {
  it('gives 3 and 1 for the matrix 2 1 1 2', () => {
    const { values, vectors } = orderedEigen(Float64Array.of(2, 1, 1, 2), 2);
    expect([...values]).toEqual([3, 1]);
    expect(Math.abs(vectors[0]! - vectors[1]!)).toBeLessThan(1e-15);
  });

  it('matches the known eigenvalues of the second-difference matrix, 2 - 2 cos(k pi / (n + 1))', () => {
    const size = 20;
    const matrix = new Float64Array(size * size);
    for (let i = 0; i < size; i++) {
      matrix[i * size + i] = 2;
      if (i > 0) matrix[i * size + i - 1] = -1;
      if (i < size - 1) matrix[i * size + i + 1] = -1;
    }
    const expected = Array.from({ length: size }, (_, k) => 2 - 2 * Math.cos(((size - k) * Math.PI) / (size + 1)));
    const { values } = orderedEigen(matrix, size);
    expect(Math.max(...expected.map((value, k) => Math.abs(value - values[k]!)))).toBeLessThan(2e-14);
  });

  it('multiplies back to the matrix with orthonormal vectors, largest value first, for any matrix', () => {
    fc.assert(
      fc.property(symmetric, ({ size, matrix }) => {
        const { values, vectors } = orderedEigen(matrix, size);
        const scale = Math.hypot(...matrix) + 1e-300;
        for (let i = 0; i < size; i++) {
          if (i > 0) expect(values[i]).toBeLessThanOrEqual(values[i - 1]!);
          for (let j = 0; j < size; j++) {
            let back = 0;
            let dot = 0;
            for (let k = 0; k < size; k++) {
              back += values[k]! * vectors[k * size + i]! * vectors[k * size + j]!;
              dot += vectors[i * size + k]! * vectors[j * size + k]!;
            }
            expect(Math.abs(back - matrix[i * size + j]!)).toBeLessThan(1e-14 * scale);
            expect(Math.abs(dot - (i === j ? 1 : 0))).toBeLessThan(1e-14);
          }
        }
      }),
    );
  });
});
