import { describe, expect, it } from 'vitest';
import {
  comparisonDesign,
  randomisation,
  type Side,
  smallestPOfDesign,
  type WallChange,
} from '../../src/analysis/index.js';

const options = { level: 0.95, unit: '% by mass', seed: 1, allocation: 'randomised' } as const;

function designOf(changes: readonly (readonly [Side, number, string?])[]) {
  const walls = changes.map(([side, change, block = ''], index): WallChange => {
    return {
      wall: `W${index}`,
      arm: side,
      side,
      block,
      before: 8,
      after: 8 + change,
      change,
      stations: 1,
      places: 'same',
    };
  });
  return comparisonDesign(walls).design;
}

const treated = [-3.1, -1.8, -2.6, -2.2].map((change) => ['treated', change] as const);
const untreated = [-1.2, -2.0, -0.6, -1.4].map((change) => ['untreated', change] as const);

describe('randomisation', () => {
  it('gives p = 4/70 for four against four, counted by hand over all allocations', () => {
    const answer = randomisation(designOf([...treated, ...untreated]), options);
    expect(answer).toMatchObject({ kind: 'estimated', estimate: { estimate: expect.closeTo(-1.125, 10) } });
    if (answer.kind !== 'estimated') throw new Error('not estimated');
    expect(answer.estimate.pValue).toBeCloseTo(4 / 70, 12);
    // Zero is not rejected, so the interval holds it; 68 of 70 such intervals hold a constant shift.
    expect(answer.estimate.interval?.upper).toBeGreaterThan(0);
    expect(answer.estimate.method).toMatchObject({ isExact: true, attainedLevel: expect.closeTo(0.971, 3) });
  });

  it('has no interval for three against three at 95 %, and says that p cannot go below 0.1', () => {
    const answer = randomisation(designOf([...treated.slice(0, 3), ...untreated.slice(0, 3)]), options);
    if (answer.kind !== 'estimated') throw new Error('not estimated');
    expect(answer.estimate.interval).toBeUndefined();
    expect(answer.estimate.method).toMatchObject({ isExact: true, allocations: 20, smallestP: 0.1 });
  });

  it('draws twelve against twelve without blocks from the seed, with an error of its own, and repeats itself', () => {
    const many = [...Array(12).keys()];
    const design = designOf([
      ...many.map((index) => ['treated', -1.4 - index / 10] as const),
      ...many.map((index) => ['untreated', -0.7 - index / 9] as const),
    ]);
    const answer = randomisation(design, options);
    if (answer.kind !== 'estimated') throw new Error('not estimated');
    expect(answer.estimate.monteCarlo).toMatchObject({ seed: 1, draws: 99_999 });
    expect(answer.estimate.monteCarlo?.pValueStandardError).toBeGreaterThan(0);
    expect(answer.estimate.method).toMatchObject({ isExact: false });
    expect(answer.estimate.method).not.toHaveProperty('attainedLevel');
    expect(randomisation(design, options)).toEqual(answer);
    expect(randomisation(design, { ...options, seed: 2 })).not.toEqual(answer);
  });

  it('says that it lacks its ground where the walls were chosen', () => {
    const answer = randomisation(designOf([...treated, ...untreated]), { ...options, allocation: 'chosen' });
    expect(answer).toMatchObject({
      estimate: { method: { allocation: 'chosen' } },
    });
  });
});

// Counted by hand: 2 over the number of allocations where each side is as large, else 1.
describe('smallestPOfDesign', () => {
  const walls = (treatedWalls: number, untreatedWalls: number) =>
    designOf([
      ...Array.from({ length: treatedWalls }, (_, index) => ['treated', index] as const),
      ...Array.from({ length: untreatedWalls }, (_, index) => ['untreated', index] as const),
    ]);

  it.each([
    [3, 3, 0.1],
    [4, 4, 2 / 70],
    [2, 8, 1 / 45],
    [6, 6, 2 / 924],
  ])('is %d against %d: %d', (one, other, expected) => {
    expect(smallestPOfDesign(walls(one, other))).toBeCloseTo(expected, 12);
  });

  it('is 2 over 2 to the n for n pairs', () => {
    const pairs = designOf(
      [1, 2, 3, 4, 5].flatMap((index) => [
        ['treated', index, `${index}`] as const,
        ['untreated', 0, `${index}`] as const,
      ]),
    );
    expect(smallestPOfDesign(pairs)).toBeCloseTo(0.0625, 12);
  });

  it('is undefined where no walls could have changed places', () => {
    expect(smallestPOfDesign(walls(3, 0))).toBeUndefined();
    expect(
      smallestPOfDesign(
        designOf([
          ['treated', 1, 'a'],
          ['untreated', 2, 'b'],
        ]),
      ),
    ).toBeUndefined();
  });
});
