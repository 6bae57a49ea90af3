import { describe, expect, it } from 'vitest';
import { type DryingObservation, dryingRateRatio } from '../../src/analysis/index.js';
import { normalDraws, randomStream } from '../../src/statistics/index.js';

describe('dryingRateRatio(observations, { season: true })', () => {
  // Six pairs, three of them begun half a year later; rates of 0.006 and 0.003 a day, and a year of amplitude 1 for all walls on the calendar.
  const draws = normalDraws(randomStream(29), 12 * 23);
  const observations = Array.from({ length: 12 }, (_, k) => k).flatMap((k): DryingObservation[] => {
    const side = k % 2 === 0 ? ('treated' as const) : ('untreated' as const);
    const pair = Math.floor(k / 2);
    const late_d = pair < 3 ? 0 : 182;
    return Array.from({ length: 22 }, (_, visit) => {
      const time_d = 35 * visit;
      const rate = (side === 'treated' ? 0.006 : 0.003) * Math.exp(0.03 * draws[23 * k]!);
      const year = Math.cos((2 * Math.PI * (late_d + time_d)) / 365.2425);
      const moisture = 3 + 7 * Math.exp(-rate * time_d) + year + 0.1 * draws[23 * k + 1 + visit]!;
      return {
        wall: `W${k}`,
        arm: side,
        side,
        block: `P${pair}`,
        station: '',
        time_d,
        season_d: late_d + time_d,
        moisture,
      };
    });
  });

  it('takes the year off by the calendar where walls began on different days', () => {
    const widthOf = (of: readonly DryingObservation[]) => {
      const answer = dryingRateRatio(of, { level: 0.95, season: true });
      if (answer.kind === 'not-estimated') throw new Error(answer.notEstimated.reason.code);
      const { interval, estimate } = answer.estimate;
      return { estimate, lower: interval?.lower ?? 0, upper: interval?.upper ?? 0 };
    };
    const calendar = widthOf(observations);
    expect(calendar.lower).toBeLessThan(2);
    expect(calendar.upper).toBeGreaterThan(2);
    expect(Math.abs(calendar.estimate - 2)).toBeLessThan(0.25);
    // By the days since each wall’s own start the two halves of the year cancel, and the year stays in the scatter.
    const own = widthOf(observations.map(({ season_d: _, ...one }) => one));
    expect(own.upper - own.lower).toBeGreaterThan(1.5 * (calendar.upper - calendar.lower));
  });
});

describe('dryingRateRatio(observations, { season: false })', () => {
  /** Treated and untreated walls in turn, seven readings each; what a wall keeps and loses differs from wall to wall. */
  const drying = (walls: number, isPaired: boolean): DryingObservation[] =>
    Array.from({ length: walls }, (_, k) => k).flatMap((k) => {
      const side = k % 2 === 0 ? ('treated' as const) : ('untreated' as const);
      const rate = (side === 'treated' ? 0.022 : 0.02) * Math.exp([0.05, -0.02, 0.03, 0.06, -0.04, 0.02][k] ?? 0);
      return [0, 20, 40, 70, 110, 160, 220].map((time_d, visit) => ({
        ...{ wall: `W${k}`, arm: side, side, block: isPaired ? `P${k >> 1}` : '', station: '', time_d },
        moisture:
          3 +
          0.2 * Math.sin(5 * k) +
          (6 + 0.3 * Math.cos(3 * k)) * Math.exp(-rate * time_d) +
          0.15 * Math.sin(7 * k + 3 * visit),
      }));
    });

  // Two degrees of freedom, 4 − 2 arms or 6 − (3 pairs + 1), have a Student’s t in closed form: P(|T| > t) = 1 − t/√(2 + t²), and 0.05 at 4.302653.
  it.each([
    ['two walls and two', drying(4, false)],
    ['three pairs', drying(6, true)],
  ])('%s leave two degrees of freedom; the p-value is two-sided, by the closed form', (_, observations) => {
    const answer = dryingRateRatio(observations, { level: 0.95, season: false });
    if (answer.kind === 'not-estimated') throw new Error(answer.notEstimated.reason.code);
    const { estimate, interval, degreesOfFreedom, pValue } = answer.estimate;
    expect(degreesOfFreedom).toBe(2);
    const error = Math.log((interval?.upper ?? 0) / estimate) / 4.302652729911275;
    const t = Math.abs(Math.log(estimate)) / error;
    expect(t).toBeGreaterThan(1);
    expect(pValue).toBeCloseTo(1 - t / Math.sqrt(2 + t * t), 9);
  });
});
