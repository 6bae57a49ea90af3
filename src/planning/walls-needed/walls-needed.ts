import { PlanningError } from '../planning-error.js';
import { plannedChances, type UncertainComparison } from './planned-chances.js';
import { designOfSize, type PlannedDesign, wallsOfDesign } from './planned-design.js';

/** The question that the number of walls has to answer. */
export interface ChanceWanted {
  /** The true effect that is to be called worthwhile, on the better side; beyond the margin. */
  readonly effect: number;
  readonly margin: number;
  /** Of `worthwhile` where the effect is as large, and of a verdict that denies it where there is none. */
  readonly chance: number;
}

/** Walls that reach a chance, or that no number up to `most` does. */
export type WallsNeeded =
  | { readonly kind: 'found'; readonly walls: number; readonly design: PlannedDesign; readonly chance: number }
  | { readonly kind: 'too-many'; readonly most: number; readonly chance: number };

/** Our convention: beyond, nobody can pay for the trial. */
const mostWalls = 400;

/**
 * The smallest design of its kind, with its proportions, with which a treatment with this true effect would be called worthwhile with the chance
 * wanted.
 *
 * @throws PlanningError `out-of-range`, also for an effect within the margin: no number of walls would find it worthwhile; `not-possible`
 *   for two walls
 * @example wallsNeeded(inPairs, { effect: 4, margin: 2, chance: 0.8 }).walls // 14
 */
export function wallsNeeded(planned: UncertainComparison, wanted: ChanceWanted): WallsNeeded {
  const where = 'wallsNeeded';
  if (!(wanted.effect > wanted.margin))
    throw new PlanningError(
      where,
      'out-of-range',
      `needs an effect beyond the margin ${wanted.margin}, got ${wanted.effect}`,
    );
  if (!(wanted.chance > 0 && wanted.chance < 1))
    throw new PlanningError(where, 'out-of-range', `needs a chance between 0 and 1, got ${wanted.chance}`);
  if (planned.design.kind === 'two-walls')
    throw new PlanningError(where, 'not-possible', 'needs a design that can grow; two walls stay two');
  const of = (steps: number) => designOfSize(planned.design, steps);
  const chanceOf = (steps: number) =>
    plannedChances({ ...planned, design: of(steps) }, [wanted.effect], wanted.margin)[0]?.worthwhile ?? 0;
  const mostSteps = Math.max(1, Math.floor(mostWalls / wallsOfDesign(of(1))));
  let [low, high] = [0, 1];
  while (chanceOf(high) < wanted.chance) {
    if (high === mostSteps)
      return { kind: 'too-many', most: wallsOfDesign(of(mostSteps)), chance: chanceOf(mostSteps) };
    [low, high] = [high, Math.min(mostSteps, 2 * high)];
  }
  while (high - low > 1) {
    const middle = Math.floor((low + high) / 2);
    if (chanceOf(middle) < wanted.chance) low = middle;
    else high = middle;
  }
  return { kind: 'found', walls: wallsOfDesign(of(high)), design: of(high), chance: chanceOf(high) };
}
