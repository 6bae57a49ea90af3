import { describe, expect, it } from 'vitest';
import { sensorArrivals } from '../../src/drying/index.js';
import { changeInMean } from '../../src/statistics/index.js';

describe('an arrival of water', () => {
  const times = Array.from({ length: 12 }, (_, at) => at);
  const noise = [0.3, -0.2, 0.1, -0.4, 0.2, 0.0, -0.1, 0.4, -0.3, 0.1, 0.2, -0.2];
  const stepped = (by: number) => noise.map((value, at) => value + (at < 6 ? 0 : by));

  it('needs a step of five standard errors, found by halving: a little less is none', () => {
    let [low, high] = [0, 5];
    for (let round = 0; round < 60; round++) {
      const middle = (low + high) / 2;
      if (changeInMean(times, stepped(middle)).statistic < 5) low = middle;
      else high = middle;
    }
    const kindOf = (by: number) =>
      sensorArrivals([{ sensor: 'P01', height_mm: 100, times, values: stepped(by) }])[0]?.kind;
    expect(changeInMean(times, stepped(high)).statistic).toBeCloseTo(5, 6);
    expect(kindOf(high * 1.001)).toBe('arrived');
    expect(kindOf(high * 0.999)).toBe('not-arrived');
  });
});
