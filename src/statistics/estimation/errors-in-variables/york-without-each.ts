import { groupBy } from '../../../plain/group-by.js';
import { checkedResult } from '../../checked-input.js';
import { StatisticsError } from '../../statistics-error.js';
import { sameLength } from './check-pairs.js';
import type { LineWithout } from './deming.js';
import { solveYork, type UncertainPairs, yorkColumns } from './york.js';
import { addYorkSums, noYorkSums, type YorkColumns, type YorkState, type YorkSums, yorkState } from './york-sums.js';

/**
 * York's line without each group of pairs in turn, for instance without each wall: what a line that has never seen the
 * group says of it. Every fit is to full precision; it starts from the line of all pairs, whose sums less the group's own
 * give the first step without another pass over the data.
 *
 * @param groups the group of each pair
 * @throws StatisticsError `too-few` below three groups, or as `york`
 * @example
 * const errors = [0.1, 0.1, 0.1, 0.1, 0.1, 0.1];
 * const pairs = { x: [1, 2, 3, 4, 5, 6], y: [2.1, 3.9, 6.2, 7.8, 10.1, 12.2], uncertaintyX: errors, uncertaintyY: errors };
 * yorkWithoutEach(pairs, ['a', 'a', 'b', 'b', 'c', 'c'])[0].slope // 2.038
 */
export function yorkWithoutEach(pairs: UncertainPairs, groups: readonly string[]): readonly LineWithout[] {
  const where = 'yorkWithoutEach';
  sameLength(where, 'groups', groups, pairs.x.length);
  const members = groupBy(groups.keys(), (index) => groups[index]);
  if (members.size < 3) throw new StatisticsError(where, 'too-few', `needs at least 3 groups, got ${members.size}`);
  const { columns, centre } = yorkColumns(where, pairs, [...members.values()].flat());
  const whole = solveYork(where, columns);
  const total = noYorkSums();
  addYorkSums(total, columns, whole.slope, 0, columns.x.length);
  let from = 0;
  return [...members].map(([group, own]) => {
    const to = from + own.length;
    const { slope, state } = solveWithout(columns, from, to, { ...whole, total });
    from = to;
    return checkedResult(where, { group, slope, intercept: centre.y + state.level - slope * centre.x });
  });
}

const MOST_STEPS = 60;

/** Newton's steps with the slope of the whole fit, scaled to what is left, and the secant after the first. */
function solveWithout(
  columns: YorkColumns,
  from: number,
  to: number,
  whole: { readonly slope: number; readonly state: YorkState; readonly turn: number; readonly total: YorkSums },
): { readonly slope: number; readonly state: YorkState } {
  const at = (slope: number) => {
    const sums = noYorkSums();
    addYorkSums(sums, columns, slope, 0, from);
    addYorkSums(sums, columns, slope, to, columns.x.length);
    return yorkState(sums);
  };
  const own = noYorkSums();
  addYorkSums(own, columns, whole.slope, from, to);
  let slope = whole.slope;
  let state = yorkState(whole.total.map((sum, index) => sum - (own[index] as number)));
  let turn = (whole.turn * state.spread) / whole.state.spread;
  for (let step = 0; step < MOST_STEPS; step++) {
    const next = slope - state.excess / turn;
    const moved = Math.abs(next - slope);
    const there = at(next);
    if (moved <= 1e-9 * Math.abs(next)) return { slope: next - there.excess / turn, state: there };
    const secant = (there.excess - state.excess) / (next - slope);
    if (secant < 0) turn = secant;
    [slope, state] = [next, there];
  }
  const detail = 'needs x and y that are related without each group too; take pairs over a wider range';
  throw new StatisticsError('yorkWithoutEach', 'not-converged', detail);
}
