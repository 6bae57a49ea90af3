import type { Sampling } from './change-variance.js';
import { plannedChances, type UncertainComparison } from './planned-chances.js';
import { designOfSize, type PlannedDesign, stepsOfDesign, wallsOfDesign } from './planned-design.js';
import type { ChanceWanted } from './walls-needed.js';

/** What a trial costs, in one currency. */
export interface Costs {
  /** To find, treat or leave a wall, and to make it good. */
  readonly wall: number;
  /** One core or reading at one station. */
  readonly core: number;
  /** One visit to all walls. */
  readonly visit: number;
  /** A month of the trial. */
  readonly month: number;
}

export interface DesignRow {
  readonly design: PlannedDesign;
  readonly walls: number;
  readonly sampling: Sampling;
  /** Of `worthwhile` where the effect wanted is true. */
  readonly found: number;
  /** Of a verdict that denies a worthwhile effect where there is none. */
  readonly denied: number;
  /** Absent where no costs are stated. */
  readonly cost?: number;
}

/** What is tried out: sizes of the design, stations a wall, visits in each window. */
export interface DesignGrid {
  readonly steps: readonly number[];
  readonly stations: readonly number[];
  readonly visits: readonly number[];
}

/**
 * Every design of a grid with its chances and its cost. More stations and visits on the same walls soon stop helping, for they leave
 * the differences between walls as they are.
 *
 * @param months that the trial lasts
 * @throws PlanningError `out-of-range`, `not-possible`
 * @example
 * const grid = { steps: [8, 12], stations: [1], visits: [1, 2] };
 * designTable(inPairs, { effect: 4, margin: 2 }, grid, { months: 14 }).map(({ walls }) => walls) // [16, 16, 24, 24]
 */
export function designTable(
  planned: UncertainComparison,
  wanted: Pick<ChanceWanted, 'effect' | 'margin'>,
  grid: DesignGrid,
  costs: { readonly costs?: Costs; readonly months: number },
): readonly DesignRow[] {
  return grid.steps.flatMap((steps) => {
    const design = designOfSize(planned.design, steps);
    return grid.stations.flatMap((stations) =>
      grid.visits.map((visits): DesignRow => {
        const sampling = { stations, visitsBefore: visits, visitsAfter: visits };
        const [ifTrue, ifNothing] = plannedChances({ ...planned, design, sampling }, [wanted.effect, 0], wanted.margin);
        const walls = wallsOfDesign(design);
        return {
          design,
          walls,
          sampling,
          found: ifTrue?.worthwhile ?? 0,
          denied:
            (ifNothing?.['no-worthwhile-effect'] ?? 0) +
            (ifNothing?.['smaller-than-worthwhile'] ?? 0) +
            (ifNothing?.harmful ?? 0),
          ...(costs.costs === undefined ? {} : { cost: costOf(costs.costs, walls, sampling, costs.months) }),
        };
      }),
    );
  });
}

/**
 * What a design costs.
 *
 * @example costOf({ wall: 200, core: 15, visit: 150, month: 0 }, 24, { stations: 3, visitsBefore: 2, visitsAfter: 2 }, 18) // 9720
 */
export function costOf(costs: Costs, walls: number, sampling: Sampling, months: number): number {
  const visits = sampling.visitsBefore + sampling.visitsAfter;
  return (
    walls * costs.wall + walls * sampling.stations * visits * costs.core + visits * costs.visit + months * costs.month
  );
}

/**
 * The row that reaches the chance for the least money, or with the fewest walls and then the fewest readings where no costs are stated.
 *
 * @example
 * const rows = designTable(inPairs, { effect: 4, margin: 2 }, { steps: [8, 12], stations: [1], visits: [1] }, { months: 14 });
 * cheapestDesign(rows, 0.8).walls // 16
 */
export function cheapestDesign(rows: readonly DesignRow[], chance: number): DesignRow | undefined {
  const effort = ({ cost, walls, sampling }: DesignRow) =>
    cost ?? walls * (1 + (sampling.stations * (sampling.visitsBefore + sampling.visitsAfter)) / 1000);
  return rows.filter(({ found }) => found >= chance).toSorted((one, other) => effort(one) - effort(other))[0];
}

/**
 * A grid around a planned design: from half its size to three times, one to twice its stations, one to twice its visits.
 *
 * @example gridAround({ kind: 'pairs', pairs: 8 }, { stations: 3, visitsBefore: 4, visitsAfter: 4 }).steps // [4, 6, 8, 12, 16, 24]
 */
export function gridAround(design: PlannedDesign, sampling: Sampling): DesignGrid {
  const steps = stepsOfDesign(design);
  const visits = Math.max(sampling.visitsBefore, sampling.visitsAfter);
  return {
    steps: rising([0.5, 0.75, 1, 1.5, 2, 3].map((factor) => Math.max(2, Math.round(steps * factor)))),
    stations: rising([1, sampling.stations, 2 * sampling.stations, 4 * sampling.stations]),
    visits: rising([1, visits, 2 * visits]),
  };
}

function rising(values: readonly number[]): readonly number[] {
  return [...new Set(values)].toSorted((one, other) => one - other);
}
