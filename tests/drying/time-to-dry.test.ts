import { describe, expect, it } from 'vitest';
import { daysUntilDry, followedUntilDry, intervalUntilDry, timeToDry } from '../../src/drying/index.js';

const curve = (...moisture: number[]) => ({ times_d: moisture.map((_, k) => 30 * k), moisture });

describe('timeToDry(curve, limit)', () => {
  it('lies between the last visit above the limit and the next', () => {
    expect(timeToDry(curve(9, 6, 4, 3), 5)).toEqual({ after_d: 30, by_d: 60, last_d: 90 });
    expect(followedUntilDry(timeToDry(curve(9, 6, 4, 3), 5))).toEqual({ time: 60, end: 'event' });
    expect(intervalUntilDry(timeToDry(curve(9, 6, 4, 3), 5))).toEqual({ after: 30, by: 60 });
    expect(daysUntilDry(timeToDry(curve(9, 6, 4, 3), 5), 90)).toBe(45);
  });

  it('does not count a wall dry that was wet again, or that never came down', () => {
    expect(timeToDry(curve(9, 4, 6, 4), 5)).toEqual({ after_d: 60, by_d: 90, last_d: 90 });
    const never = timeToDry(curve(9, 8, 7, 6), 5);
    expect(never).toEqual({ after_d: 90, last_d: 90 });
    expect(followedUntilDry(never)).toEqual({ time: 90, end: 'censored' });
    expect(intervalUntilDry(never)).toEqual({ after: 90 });
    expect(daysUntilDry(never, 90)).toBe(90);
  });

  it('knows a wall that was dry from the start', () => {
    const dry = timeToDry(curve(4, 3), 5);
    expect(dry).toEqual({ after_d: 0, by_d: 0, last_d: 30 });
    expect(intervalUntilDry(dry).by).toBe(0);
    expect(daysUntilDry(dry, 30)).toBe(0);
  });
});
