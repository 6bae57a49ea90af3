import { describe, expect, it } from 'vitest';
import {
  type IntervalCensored,
  type IntervalTime,
  intervalCensored,
  randomStream,
  uniform,
} from '../../../../src/statistics/index.js';

const never = Number.POSITIVE_INFINITY;

/** Walls that dry exponentially, looked at eight times, each wall up to so many days late. */
function visited(walls: number, late: number, stream: number): IntervalTime[] {
  const random = randomStream(20240715, stream);
  return Array.from({ length: walls }, () => {
    const time = -100 * Math.log(1 - uniform(random));
    let after = 0;
    for (let visit = 1; visit <= 8; visit++) {
      const by = 30 * visit + Math.floor(uniform(random) * (late + 1));
      if (time <= by) return { after, by };
      after = by;
    }
    return { after };
  });
}

/**
 * The greatest share of the log-likelihood that any shift towards one stretch could bring, less 1: at the maximum, which is one
 * because the function is concave, no more than 0. Every stretch between two neighbouring ends of any kind is tried.
 */
function leftToGain(times: readonly IntervalTime[], { masses }: IntervalCensored): number {
  const holds = (one: IntervalTime, after: number, by: number) => after >= one.after && by <= (one.by ?? never);
  const chances = times.map((one) =>
    masses.reduce((sum, { after, by, share }) => sum + (holds(one, after, by) ? share : 0), 0),
  );
  const ends = [...new Set(times.flatMap(({ after, by = never }) => [after, by]))].sort((a, b) => a - b);
  const slopes = ends
    .slice(1)
    .map((by, k) => times.reduce((sum, one, at) => sum + (holds(one, ends[k]!, by) ? 1 / chances[at]! : 0), 0));
  return Math.max(...slopes) / times.length - 1;
}

describe('intervalCensored where visits differ from wall to wall', () => {
  it('ends at the maximum by the conditions of Karush, Kuhn and Tucker: 240 random trials, none refused', () => {
    for (let trial = 0; trial < 240; trial++) {
      const times = visited(12 + (trial % 20), trial % 6, trial);
      const found = intervalCensored(times);
      expect(leftToGain(times, found), `trial ${trial}`).toBeLessThan(1e-9);
      expect(
        found.masses.reduce((sum, { share }) => sum + share, 0),
        `trial ${trial}`,
      ).toBeCloseTo(1, 6);
      expect(found.iterations).toBeLessThan(30);
    }
  });

  it('finds 300 walls looked at on nearly as many days', () => {
    const times = visited(300, 29, 1000);
    expect(leftToGain(times, intervalCensored(times))).toBeLessThan(1e-9);
  });

  it('gives a stretch no share where the shares of redistribution alone go down as one over the rounds', () => {
    const ends = '4-7 6-8 4- 1-3 5-8 7-10 4-5 6-10 5- 6- 5- 6-10 5-8 3-6 4-8'.split(' ');
    const times = ends.map((text) => {
      const [after, by] = text.split('-');
      return by ? { after: Number(after), by: Number(by) } : { after: Number(after) };
    });
    const { masses } = intervalCensored(times);
    // By hand: 1/15, 14/75, 7/25 and 7/15 fulfil the conditions exactly.
    expect(masses.map(({ after, by }) => [after, by])).toEqual([
      [1, 3],
      [4, 5],
      [6, 7],
      [7, 8],
    ]);
    const shares = [1 / 15, 14 / 75, 7 / 25, 7 / 15];
    expect(Math.max(...masses.map(({ share }, k) => Math.abs(share - shares[k]!)))).toBeLessThan(1e-9);
  });
});
