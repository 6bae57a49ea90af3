import { describe, expect, it } from 'vitest';
import {
  type AllocatedGroups,
  normalDraws,
  randomisationTest,
  randomStream,
  shuffled,
} from '../../../src/statistics/index.js';

const before = [9.1, 11.4, 8.2, 10.7, 9.9, 12.3, 8.8, 10.1];
const change = [-1.2, -2.9, -0.3, -2.2, -1.1, -3.4, -0.9, -1.6];

function complete(values: readonly number[], treated: readonly number[]): AllocatedGroups {
  const isTreated = new Set(treated);
  return {
    kind: 'complete',
    treated: values.filter((_, at) => isTreated.has(at)),
    untreated: values.filter((_, at) => !isTreated.has(at)),
  };
}

function difference(values: readonly number[], treated: readonly number[]): number {
  const of = (isTreated: boolean) => values.filter((_, at) => treated.includes(at) === isTreated);
  const mean = (some: readonly number[]) => some.reduce((sum, value) => sum + value, 0) / some.length;
  return mean(of(true)) - mean(of(false));
}

function fours(): readonly (readonly number[])[] {
  const found: number[][] = [];
  for (let mask = 0; mask < 256; mask++) {
    const chosen = [0, 1, 2, 3, 4, 5, 6, 7].filter((at) => mask & (1 << at));
    if (chosen.length === 4) found.push(chosen);
  }
  return found;
}

describe('randomisationTest under a constraint', () => {
  const treated = [0, 3, 5, 6];
  const mostDifference = 0.6;
  const allowed = fours().filter((chosen) => Math.abs(difference(before, chosen)) <= mostDifference);

  it('against a plain enumeration: the allocations, the p-value, the smallest p', () => {
    const result = randomisationTest(complete(change, treated), {
      seed: 1,
      constraint: { values: complete(before, treated), mostDifference },
    });
    const observed = Math.abs(difference(change, treated));
    const asExtreme = allowed.filter((chosen) => Math.abs(difference(change, chosen)) >= observed - 1e-12);
    expect(allowed.length).toBeLessThan(70);
    expect(result.computation).toEqual({ kind: 'exact', allocations: allowed.length });
    expect(result.pValue).toBeCloseTo(asExtreme.length / allowed.length, 12);
    expect(result.smallestP).toBeCloseTo(2 / allowed.length, 12);
  });

  it('drawn agrees with exact within five Monte Carlo errors, and draws as many as asked', () => {
    const constraint = { values: complete(before, treated), mostDifference };
    const exact = randomisationTest(complete(change, treated), { seed: 1, constraint });
    const drawn = randomisationTest(complete(change, treated), { seed: 3, constraint, exactUpTo: 10, draws: 8000 });
    if (drawn.computation.kind !== 'monte-carlo') throw new Error('expected drawn allocations');
    expect(drawn.computation.draws).toBe(8000);
    expect(Math.abs(drawn.pValue - exact.pValue)).toBeLessThan(5 * drawn.computation.pValueStandardError);
  });

  it('a limit that every allocation meets changes nothing', () => {
    const constraint = { values: complete(before, treated), mostDifference: 100 };
    const free = randomisationTest(complete(change, treated), { seed: 1 });
    expect(randomisationTest(complete(change, treated), { seed: 1, constraint })).toEqual(free);
  });

  it('is uniform under no effect when walls were drawn under the constraint, and is not when the test forgets it', () => {
    const stream = randomStream(20240917);
    const [trials, alpha] = [1000, 0.1];
    const walls = [0, 1, 2, 3, 4, 5, 6, 7, 8, 9];
    let [rejected, forgotten] = [0, 0];
    for (let trial = 0; trial < trials; trial++) {
      const values = [...normalDraws(stream, 10)];
      const own = normalDraws(stream, 10);
      // What follows depends on what was before: just where a constraint matters.
      const responses = values.map((value, at) => 2 * value + 0.4 * (own[at] ?? 0));
      let chosen: readonly number[];
      do chosen = shuffled(stream, walls).slice(0, 5);
      while (Math.abs(difference(values, chosen)) > 0.4);
      const constraint = { values: complete(values, chosen), mostDifference: 0.4 };
      const under = randomisationTest(complete(responses, chosen), { seed: 1, constraint });
      if (under.pValue <= alpha) rejected += alpha / attained(under.computation, alpha);
      if (randomisationTest(complete(responses, chosen), { seed: 1 }).pValue <= alpha) forgotten++;
    }
    const error = Math.sqrt((alpha * (1 - alpha)) / trials);
    expect(Math.abs(rejected / trials - alpha)).toBeLessThan(5 * error);
    expect(forgotten / trials).toBeLessThan(alpha / 4);
  }, 60_000);

  it.each([
    [
      'an allocation that it would have drawn again',
      { values: complete(before, [1, 3, 5, 7]), mostDifference: 0.1 },
      [1, 3, 5, 7],
      'out-of-range',
    ],
    ['a negative limit', { values: complete(before, treated), mostDifference: -1 }, treated, 'out-of-range'],
    [
      'values of other units',
      { values: complete(before.slice(1), [0, 1, 2]), mostDifference: 5 },
      treated,
      'lengths-differ',
    ],
  ] as const)('refuses %s', (_, constraint, chosen, fault) => {
    const act = () => randomisationTest(complete(change, chosen), { seed: 1, constraint });
    expect(act).toThrowError(expect.objectContaining({ fault }));
  });

  it('says that too few allocations meet it, where they are drawn', () => {
    const twins = [...normalDraws(randomStream(4), 12)];
    // Only the exchange of equal walls keeps the difference at 0: one allocation in some 660.
    const values = { kind: 'complete' as const, treated: twins, untreated: twins };
    const responses = { kind: 'complete' as const, treated: twins.map((value) => value + 1), untreated: twins };
    const act = () => randomisationTest(responses, { seed: 1, draws: 500, constraint: { values, mostDifference: 0 } });
    expect(act).toThrowError(expect.objectContaining({ fault: 'too-few' }));
  });
});

/** Of so many allocations in mirrored pairs, the share that p-values at most alpha can have. */
function attained(computation: { readonly kind: string; readonly allocations?: number }, alpha: number): number {
  const pairs = (computation.allocations ?? 0) / 2;
  return Math.max(1e-9, Math.floor(alpha * pairs + 1e-9) / pairs);
}
