import type { VerdictCode } from '../../analysis/index.js';
import { differenceErrors, type PlannedComparison } from './difference-errors.js';
import { seriesChances } from './series-chances.js';
import { possibleSpreads, type UncertainWalls } from './uncertain-walls.js';
import { chancesOfErrors, checkMargin, type VerdictChances } from './verdict-chances.js';

/** A comparison whose spread between walls may be known from a pilot only. */
export interface UncertainComparison extends PlannedComparison {
  readonly uncertainty?: UncertainWalls;
}

/**
 * The chance of every verdict for each of several true effects: as `verdictChances`, two walls included, and where the spread between
 * walls comes from a pilot the mean over all spreads that the pilot leaves possible.
 *
 * @param effects on the better side
 * @throws PlanningError `out-of-range`, `not-possible`
 * @example
 * const uncertainty = { variance: 1, degreesOfFreedom: 4, inside: 0 };
 * const chances = [{ ...inPairs, uncertainty }, inPairs].map((planned) => plannedChances(planned, [4], 2)[0].worthwhile);
 * chances[0] < chances[1] // true
 */
export function plannedChances(
  planned: UncertainComparison,
  effects: readonly number[],
  margin: number | undefined,
): readonly VerdictChances[] {
  for (const effect of effects) checkMargin('plannedChances', effect, margin);
  const { uncertainty, spreads } = planned;
  const possible =
    uncertainty === undefined ? [{ probability: 1, walls: spreads.walls }] : possibleSpreads(uncertainty);
  const cases = possible.map(({ probability, walls }) => ({
    probability,
    chances: chancesWith({ ...planned, spreads: { ...spreads, walls } }, effects, margin),
  }));
  return effects.map((_, at) => {
    const of = (code: VerdictCode) =>
      cases.reduce((sum, { probability, chances }) => sum + probability * (chances[at]?.[code] ?? 0), 0);
    return {
      worthwhile: of('worthwhile'),
      'some-effect': of('some-effect'),
      'smaller-than-worthwhile': of('smaller-than-worthwhile'),
      'no-worthwhile-effect': of('no-worthwhile-effect'),
      harmful: of('harmful'),
      undecided: of('undecided'),
      'not-answerable': of('not-answerable'),
    };
  });
}

function chancesWith(planned: PlannedComparison, effects: readonly number[], margin: number | undefined) {
  if (planned.design.kind === 'two-walls')
    return effects.map((effect) => seriesChances(planned, effect, margin).chances);
  return effects.map(chancesOfErrors(differenceErrors(planned), margin));
}
