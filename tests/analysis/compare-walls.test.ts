import { describe, expect, it } from 'vitest';
import { compareWalls, dryingRateRatio, type WallValue } from '../../src/analysis/index.js';
import { normalDraws, paired, randomStream, welch } from '../../src/statistics/index.js';
import { expectRelative } from '../helpers/expect-relative.js';

const treated = [0.021, 0.017, 0.026, 0.019];
const untreated = [0.012, 0.015, 0.01, 0.014];

function walls(block: (at: number) => string): readonly WallValue[] {
  return [...treated, ...untreated].map((value, k) => {
    const side = k < 4 ? 'treated' : 'untreated';
    return { wall: `W${k}`, arm: side, side, block: block(k % 4), value } as const;
  });
}

const what = { id: 'rate-ratio', unit: '', level: 0.95 } as const;

function estimated(answer: ReturnType<typeof compareWalls>) {
  if (answer.kind === 'not-estimated') throw new Error(answer.notEstimated.reason.code);
  return answer.estimate;
}

describe('compareWalls(walls, what)', () => {
  it('is Welch’s on the logarithms, turned back, without blocks', () => {
    const found = estimated(
      compareWalls(
        walls(() => ''),
        { ...what, scale: 'ratio' },
      ),
    );
    const log = (values: readonly number[]) => values.map(Math.log);
    const expected = welch(log(treated), log(untreated));
    expectRelative(found.estimate, Math.exp(expected.estimate), 1e-14);
    expectRelative(found.interval?.lower, Math.exp(expected.interval.lower), 1e-14);
    expectRelative(found.interval?.upper, Math.exp(expected.interval.upper), 1e-14);
    expect(found.walls).toEqual({ treated: 4, untreated: 4 });
    expect(found.pValue).toBe(expected.pValue);
  });

  it('is Student’s over pairs where the blocks are pairs', () => {
    const found = estimated(
      compareWalls(
        walls((k) => `B${k}`),
        { ...what, unit: '% a day', scale: 'difference' },
      ),
    );
    const expected = paired(treated.map((value, k) => value - untreated[k]!));
    expect(found.estimate).toBe(expected.estimate);
    expect(found.interval).toEqual(expected.interval);
    expect(found.unit).toBe('% a day');
  });

  it('gives a reason where a ratio or a comparison means nothing', () => {
    const reason = (values: readonly WallValue[]) => {
      const answer = compareWalls(values, { ...what, scale: 'ratio' });
      return answer.kind === 'not-estimated' ? answer.notEstimated.reason.code : undefined;
    };
    expect(reason(walls(() => '').map((wall, k) => ({ ...wall, value: k - 3 })))).toBe('ratio-needs-positive-values');
    expect(reason(walls(() => '').slice(0, 4))).toBe('too-few-values');
  });
});

describe('dryingRateRatio(observations, level)', () => {
  const observations = (seed: number, perArm: number, isPaired: boolean) => {
    const draws = normalDraws(randomStream(seed), 10_000);
    let next = 0;
    return Array.from({ length: 2 * perArm }, (_, w) => {
      const side = w % 2 === 0 ? ('treated' as const) : ('untreated' as const);
      const rate = 0.012 * (side === 'treated' ? 1.6 : 1) * Math.exp(0.15 * draws[next++]!);
      const [dry, lost] = [4 + 0.5 * draws[next++]!, 6 + draws[next++]!];
      return ['low', 'high'].flatMap((station) =>
        Array.from({ length: 14 }, (_, visit) => ({
          wall: `W${w}`,
          arm: side,
          side,
          block: isPaired ? `B${Math.floor(w / 2)}` : '',
          station,
          time_d: 20 * visit,
          moisture: dry + lost * Math.exp(-rate * 20 * visit) + 0.3 * draws[next++]!,
        })),
      );
    }).flat();
  };

  it.each([false, true])('holds the ratio that made the readings, paired: %s', (isPaired) => {
    const found = estimated(dryingRateRatio(observations(4, 6, isPaired), { level: 0.95, season: false }));
    expect(found.interval?.lower).toBeLessThan(1.6);
    expect(found.interval?.upper).toBeGreaterThan(1.6);
    expect(found.degreesOfFreedom).toBeLessThanOrEqual(isPaired ? 5 : 10);
    const turned = observations(4, 6, isPaired).map((one) => ({
      ...one,
      side: one.side === 'treated' ? ('untreated' as const) : ('treated' as const),
    }));
    expectRelative(
      estimated(dryingRateRatio(turned, { level: 0.95, season: false })).estimate,
      1 / found.estimate,
      1e-5,
    );
  });

  it('gives a reason for one wall an arm, and for walls that do not dry', () => {
    const reason = (answer: ReturnType<typeof dryingRateRatio>) =>
      answer.kind === 'not-estimated' ? answer.notEstimated.reason.code : undefined;
    expect(reason(dryingRateRatio(observations(4, 1, false), { level: 0.95, season: false }))).toBe('too-few-walls');
    const flat = observations(4, 3, false).map((one) => ({ ...one, moisture: 5 }));
    expect(reason(dryingRateRatio(flat, { level: 0.95, season: false }))).toBeDefined();
  });
});
