import { describe, expect, it } from 'vitest';
import type { WallCurve } from '../../../src/findings/drying/drying-part.js';
import { meansOfArms } from '../../../src/findings/drying/means-of-arms.js';

function curve(wall: string, side: WallCurve['side'], read: Readonly<Record<string, number>>): WallCurve {
  const days = Object.keys(read);
  const arm = side === 'treated' ? 'device' : 'none';
  return { wall, arm, side, block: '', days, times_d: days.map((_, at) => at), moisture: Object.values(read) };
}

describe('meansOfArms(curves, level)', () => {
  it('is the mean with Student’s limits: t.test(c(8, 10, 12)) of R 4.2.2', () => {
    const curves = [8, 10, 12].map((value, at) => curve(`W${at}`, 'treated', { '2024-06-01': value }));
    const visit = meansOfArms(curves, 0.95)[0]?.visits[0];
    expect(visit?.mean).toBe(10);
    expect(visit?.lower).toBeCloseTo(5.031724, 5);
    expect(visit?.upper).toBeCloseTo(14.968276, 5);
  });

  it('takes a visit on which half of the walls were read, and none on which fewer were', () => {
    const half = [curve('A', 'treated', { d1: 5, d2: 4 }), curve('B', 'treated', { d1: 7 })];
    expect(meansOfArms(half, 0.95)[0]?.visits.map(({ day }) => day)).toEqual(['d1', 'd2']);
    const third = [...half, curve('C', 'treated', { d1: 6 })];
    expect(meansOfArms(third, 0.95)[0]?.visits.map(({ day }) => day)).toEqual(['d1']);
  });

  it('puts treated arms first and gives one wall a mean without limits', () => {
    const found = meansOfArms([curve('U', 'untreated', { d1: 5 }), curve('T', 'treated', { d1: 7 })], 0.95);
    expect(found).toEqual([
      { arm: 'device', visits: [{ day: 'd1', mean: 7 }] },
      { arm: 'none', visits: [{ day: 'd1', mean: 5 }] },
    ]);
  });
});
