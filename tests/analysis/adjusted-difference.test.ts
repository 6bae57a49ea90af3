import { describe, expect, it } from 'vitest';
import { adjustedDifference, type WallVisit } from '../../src/analysis/index.js';
import { mean, normalDraws, randomStream, welch } from '../../src/statistics/index.js';
import { expectRelative } from '../helpers/expect-relative.js';

const options = { level: 0.95, unit: '% by mass' };
const season = { id: 'season-adjusted', season: true, weather: [] } as const;

/** Ten walls; a year's cycle of 2 and an effect of -1.5; treated walls may be read later in the year than the others. */
function visits(lag: number): readonly WallVisit[] {
  const draws = normalDraws(randomStream(3), 10 * 20);
  let next = 0;
  return Array.from({ length: 10 }, (_, w) => {
    const isTreated = w % 2 === 0;
    const [level, own] = [9 + draws[next++]!, 0.4 * draws[next++]!];
    return (['before', 'after'] as const).flatMap((window) =>
      [0, 1, 2, 3].map((k): WallVisit => {
        const month = 2 + 2 * k + (isTreated ? lag : 0);
        const day = new Date(
          Date.UTC(window === 'before' ? 2024 : 2025, month + (window === 'after' && isTreated ? lag : 0), 15),
        );
        const turn = (2 * Math.PI * day.getTime()) / (365.2425 * 86_400_000);
        const moisture = level + 2 * Math.cos(turn) + (window === 'after' ? own + (isTreated ? -1.5 : 0) : 0);
        const side = isTreated ? 'treated' : 'untreated';
        const place = { wall: `W${w}`, arm: side, side, block: '' } as const;
        return { ...place, day: day.toISOString().slice(0, 10), window, moisture: moisture + 0.2 * draws[next++]! };
      }),
    );
  }).flat();
}

const changesOf = (rows: readonly WallVisit[], side: string) =>
  [...new Set(rows.filter((row) => row.side === side).map(({ wall }) => wall))].map((name) => {
    const on = (window: string) =>
      mean(rows.filter((row) => row.wall === name && row.window === window).map((row) => row.moisture));
    return on('after') - on('before');
  });

function estimated(answer: ReturnType<typeof adjustedDifference>) {
  if (answer.kind === 'not-estimated') throw new Error(answer.notEstimated.reason.code);
  return answer.estimate;
}

describe('adjustedDifference(visits, what)', () => {
  it('is the plain difference of changes where all walls were read on the same days', () => {
    const rows = visits(0);
    const plain = welch(changesOf(rows, 'treated'), changesOf(rows, 'untreated'));
    const found = estimated(adjustedDifference(rows, season, options));
    expectRelative(found.estimate, plain.estimate, 1e-6);
    expect(found.degreesOfFreedom).toBeLessThanOrEqual(8);
  });

  it('takes the season off where the treated walls were read at another time of the year', () => {
    const rows = visits(1);
    const plain = mean(changesOf(rows, 'treated')) - mean(changesOf(rows, 'untreated'));
    const found = estimated(adjustedDifference(rows, season, options));
    expect(found.interval?.lower).toBeLessThan(-1.5);
    expect(found.interval?.upper).toBeGreaterThan(-1.5);
    expect(Math.abs(plain + 1.5)).toBeGreaterThan(Math.abs(found.estimate + 1.5));
  });

  it('gives a reason where the weather says nothing or is missing', () => {
    const weather = { id: 'weather', season: false, weather: ['air'] } as const;
    const reason = (rows: readonly WallVisit[]) => {
      const answer = adjustedDifference(rows, weather, options);
      return answer.kind === 'not-estimated' ? answer.notEstimated.reason.code : undefined;
    };
    expect(reason(visits(0).map((row) => ({ ...row, weather: { air: 500 } })))).toBe('visits-do-not-vary');
    expect(reason(visits(0))).toBe('too-few-walls');
  });
});
