import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { differenceInWords } from '../../../src/report/words/difference-in-words.js';
import { compactRows } from '../../../src/report/writers/compact-rows.js';

describe('differenceInWords({ difference, changes, unit, decimals, walls })', () => {
  it.each([
    [-2.6, -3.1, -0.5, 'the treated walls lost 2.6 % more than the untreated walls'],
    [0.4, -0.5, -0.9, 'the treated walls lost 0.4 % less than the untreated walls'],
    [1.5, 2, 0.5, 'the treated walls gained 1.5 % more than the untreated walls'],
    [-1.5, 0.5, 2, 'the treated walls gained 1.5 % less than the untreated walls'],
    [-3, -2, 1, 'measured against the untreated walls, the treated walls lost 3.0 %'],
    [3, 2, -1, 'measured against the untreated walls, the treated walls gained 3.0 %'],
    [0.01, -1, -1.01, 'the treated walls changed as much as the untreated walls did'],
  ])('%d, from %d and %d', (difference, treated, untreated, words) => {
    expect(
      differenceInWords({ difference, changes: { treated, untreated }, unit: '%', decimals: 1, walls: 'walls' }),
    ).toBe(words);
  });
});

describe('compactRows(rows)', () => {
  it('writes runs as ranges, in order, each row once', () => {
    expect(compactRows([18, 12, 13, 15, 14, 13])).toBe('12–15, 18');
    expect(compactRows([])).toBe('');
  });

  it('holds exactly the rows that it was given', () => {
    fc.assert(
      fc.property(fc.uniqueArray(fc.integer({ min: 1, max: 60 })), (rows) => {
        const written = compactRows(rows)
          .split(', ')
          .filter((run) => run !== '')
          .flatMap((run) => {
            const [from = 0, to = from] = run.split('–').map(Number);
            return Array.from({ length: to - from + 1 }, (_, index) => from + index);
          });
        expect(written).toEqual([...rows].sort((a, b) => a - b));
      }),
    );
  });

  it('counts the rows of the runs that it does not show', () => {
    expect(compactRows([1, 3, 5, 6, 7], 2)).toBe('1, 3 and 3 more rows, all of them in opinion.json');
  });
});
