import { StatisticsError } from '../../statistics-error.js';

/** Units of one block, each with a whole number; which of them were treated. */
export interface ScoredUnits {
  readonly treated: readonly number[];
  readonly untreated: readonly number[];
}

export interface TestOfScores {
  readonly kind: 'scores-of-treated';
  /** Sum over the treated units. */
  readonly sum: number;
  /** Mean of that sum over all allocations. */
  readonly expected: number;
  /** Chance of such a sum, or a larger one, when each allocation inside the blocks is as likely as any other. */
  readonly pValue: number;
  /** The smallest p-value that any allocation of these units could give. */
  readonly smallestP: number;
}

/**
 * Exact one-sided randomisation test of whole-number scores: are those of the treated units larger than an allocation inside
 * blocks makes by chance? All allocations are counted, sum by sum, so that nothing is drawn.
 *
 * @throws StatisticsError `too-few` without a unit, `out-of-range` for scores that are no whole numbers
 * @example scoresOfTreated([{ treated: [1, 1, 1, 1], untreated: [-1, -1, -1, -1] }]).pValue // 1/70
 */
export function scoresOfTreated(blocks: readonly ScoredUnits[]): TestOfScores {
  const scores = blocks.flatMap(({ treated, untreated }) => [...treated, ...untreated]);
  if (scores.length === 0) throw new StatisticsError('scoresOfTreated', 'too-few', 'needs at least 1 unit, got none');
  if (!scores.every(Number.isSafeInteger))
    throw new StatisticsError('scoresOfTreated', 'out-of-range', 'needs whole numbers as scores');
  let chances: Chances = new Map([[0, 1]]);
  let [sum, expected] = [0, 0];
  for (const block of blocks) {
    const all = [...block.treated, ...block.untreated];
    if (all.length === 0) continue;
    chances = convolved(chances, ofBlock(all, block.treated.length));
    sum += total(block.treated);
    expected += (total(all) * block.treated.length) / all.length;
  }
  const sums = [...chances.keys()];
  const atLeast = (least: number) =>
    Math.min(1, total(sums.filter((one) => one >= least).map((one) => chances.get(one) ?? 0)));
  return {
    kind: 'scores-of-treated',
    ...{ sum, expected, pValue: atLeast(sum) },
    smallestP: atLeast(Math.max(...sums)),
  };
}

/** The chance of each sum. */
type Chances = ReadonlyMap<number, number>;

/** Chances of the sums of `taken` of the scores: counted by how many are taken and what they come to. */
function ofBlock(scores: readonly number[], taken: number): Chances {
  const counts: Map<number, number>[] = Array.from({ length: taken + 1 }, () => new Map<number, number>());
  counts[0]?.set(0, 1);
  for (const score of scores)
    for (let size = taken; size > 0; size--)
      for (const [sum, count] of counts[size - 1] ?? []) add(counts[size] ?? new Map(), sum + score, count);
  const last = counts[taken] ?? new Map<number, number>();
  const all = total([...last.values()]);
  return new Map([...last].map(([sum, count]) => [sum, count / all]));
}

function convolved(one: Chances, other: Chances): Chances {
  const both = new Map<number, number>();
  for (const [a, chance] of one) for (const [b, also] of other) add(both, a + b, chance * also);
  return both;
}

function add(map: Map<number, number>, key: number, value: number): void {
  map.set(key, (map.get(key) ?? 0) + value);
}

function total(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0);
}
