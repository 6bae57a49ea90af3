import { comparisonSides } from '../analysis/index.js';
import type { SizedPlan } from '../records/index.js';
import type { Trial } from '../trial/index.js';
import {
  type AllocationPlan,
  type ArmCount,
  allocateWalls,
  type WallAllocation,
  type WallToAllocate,
} from './allocation/allocate-walls.js';
import { wallCodes } from './allocation/wall-codes.js';
import { type ReadingPlace, readingPlaces } from './calendar/reading-places.js';
import { type TrialCalendar, trialCalendar } from './calendar/trial-calendar.js';
import { PlanningError } from './planning-error.js';
import { type SimulatedChances, simulatedChances } from './simulated-chances/simulated-chances.js';
import { cheapestDesign, type DesignRow, designTable, gridAround } from './walls-needed/design-table.js';
import { expectedWidth, smallestShown } from './walls-needed/interval-width.js';
import { type PilotSpreads, pilotSpreads } from './walls-needed/pilot-spreads.js';
import { plannedChances, type UncertainComparison } from './walls-needed/planned-chances.js';
import type { PlannedDesign } from './walls-needed/planned-design.js';
import { type SeriesChances, seriesChances } from './walls-needed/series-chances.js';
import type { VerdictChances } from './walls-needed/verdict-chances.js';
import { type WallsNeeded, wallsNeeded } from './walls-needed/walls-needed.js';

/** A pilot as it was read, and whether its walls are invented. */
export interface Pilot {
  readonly trial: Trial;
  readonly name: string;
  readonly isInvented: boolean;
}

/** A trial as planned: its chances, its days and its allocation. */
export interface TrialPlan {
  readonly plan: SizedPlan;
  readonly comparison: UncertainComparison;
  readonly pilot?: PilotSpreads & { readonly name: string; readonly isInvented: boolean };
  /** Supposed true effects, on the better side, with the chance of every verdict. */
  readonly truths: readonly { readonly effect: number; readonly chances: VerdictChances }[];
  /** Where the chances of the truths have no closed form: what they were counted in. */
  readonly simulated?: SimulatedChances;
  readonly wanted: { readonly effect: number; readonly margin: number; readonly chance: number };
  /** Absent of two walls, which stay two. */
  readonly size?: {
    readonly needed: WallsNeeded;
    readonly width: number;
    readonly smallestShown?: number;
    readonly table: readonly DesignRow[];
    readonly cheapest?: DesignRow;
    /** Where a pilot was read: walls needed if the spread between walls were at either end of its interval. */
    readonly neededAtEnds?: readonly [WallsNeeded, WallsNeeded];
  };
  readonly series?: SeriesChances;
  readonly calendar: TrialCalendar;
  readonly places: readonly ReadingPlace[];
  readonly allocation: WallAllocation;
  readonly codes: readonly { readonly code: string; readonly wall: string }[];
}

const shares = [0, 0.5, 1, 1.5, 2];

/** The chances say nothing of the arms, and the same plan gives the same ones. */
const seedOfChances = 1;
/** No chance is then off by much more than two in a hundred (two Monte Carlo errors). */
const simulatedTrials = 2000;

/**
 * Plans a trial from its plan: chances of the verdict, walls needed, calendar, allocation.
 *
 * @param seed of the allocation: whoever knows it and the plan knows every arm
 * @throws PlanningError `too-few` for a pilot with one wall in each arm, `not-possible` for a constraint that no allocation meets or a
 *   calendar without a day, `out-of-range`; all by rejecting
 */
export async function makePlan(plan: SizedPlan, seed: number, pilot?: Pilot): Promise<TrialPlan> {
  const { planning, margin, confidence, outcome, windows } = plan;
  const { visitsBefore, visitsAfter, autocorrelation } = planning;
  const places = readingPlaces(planning);
  const fromPilot = pilot && {
    ...pilotSpreads(pilot.trial, autocorrelation),
    ...{ name: pilot.name, isInvented: pilot.isInvented },
  };
  const design = designOf(plan);
  const comparison: UncertainComparison = {
    design,
    spreads: spreadsOf(plan, fromPilot),
    sampling: { stations: planning.stations, visitsBefore, visitsAfter },
    dropOut: planning.dropOut,
    missedVisits: planning.missedVisits,
    level: confidence,
    ...(fromPilot === undefined || planning.spreads !== undefined ? {} : { uncertainty: fromPilot.uncertainty }),
  };
  const wanted = { effect: planning.effect ?? 2 * margin, margin, chance: planning.chance };
  const effects = [...new Set([...shares.map((share) => share * margin), wanted.effect])].toSorted((a, b) => a - b);
  // Walls that are read on unlike numbers of visits vary unlike, and then there is no closed form.
  const simulated =
    planning.missedVisits > 0
      ? await simulatedChances(comparison, effects, margin, { seed: seedOfChances, trials: simulatedTrials })
      : undefined;
  const chances =
    simulated?.truths.map(({ primary }) => primary.chances) ?? plannedChances(comparison, effects, margin);
  const calendar = trialCalendar({
    ...{ ...planning, margin, unit: outcome.unit, better: outcome.better },
    ...(windows === undefined ? {} : { windows }),
  });
  const drawn = allocationPlan(plan);
  return {
    plan,
    comparison,
    ...(fromPilot === undefined ? {} : { pilot: fromPilot }),
    truths: effects.flatMap((effect, at) => {
      const own = chances[at];
      return own === undefined ? [] : [{ effect, chances: own }];
    }),
    wanted,
    ...(simulated === undefined ? {} : { simulated }),
    ...(design.kind === 'two-walls'
      ? { series: seriesChances(comparison, 0, margin) }
      : { size: sizeOf(comparison, wanted, planning.costs, calendar.months, fromPilot) }),
    ...{ calendar, places },
    allocation: allocateWalls(drawn, seed),
    codes: wallCodes(
      drawn.walls.map(({ wall }) => wall),
      seed,
    ),
  };
}

function sizeOf(
  comparison: UncertainComparison,
  wanted: TrialPlan['wanted'],
  costs: SizedPlan['planning']['costs'],
  months: number,
  pilot: PilotSpreads | undefined,
): NonNullable<TrialPlan['size']> {
  const grid = gridAround(comparison.design, comparison.sampling);
  const table = designTable(comparison, wanted, grid, { months, ...(costs === undefined ? {} : { costs }) });
  const cheapest = cheapestDesign(table, wanted.chance);
  const smallest = smallestShown(comparison, wanted.chance);
  const { uncertainty, ...known } = comparison;
  const at = (walls: number) => wallsNeeded({ ...known, spreads: { ...known.spreads, walls } }, wanted);
  return {
    needed: wallsNeeded(comparison, wanted),
    width: expectedWidth(comparison),
    ...(smallest === undefined ? {} : { smallestShown: smallest }),
    table,
    ...(cheapest === undefined ? {} : { cheapest }),
    ...(pilot === undefined || uncertainty === undefined
      ? {}
      : { neededAtEnds: [at(pilot.walls.lower), at(pilot.walls.upper)] as const }),
  };
}

/** What the plan states counts before what a pilot shows. */
function spreadsOf({ planning }: SizedPlan, pilot: PilotSpreads | undefined): UncertainComparison['spreads'] {
  const { spreads, autocorrelation, measurement } = planning;
  const base = spreads ?? pilot?.spreads;
  if (base === undefined)
    throw new PlanningError('makePlan', 'not-possible', 'needs spreads, or a pilot that shows them');
  const { walls, stations, visits, readings } = base;
  const isGrouped = planning.design !== 'complete' && planning.design !== 'two-walls';
  const correlation = isGrouped ? (planning.correlation ?? pilot?.spreads.correlation ?? 0) : 0;
  return { walls, stations, visits, readings, measurement, autocorrelation, correlation };
}

/** Walls of either side, in all or in a block, and houses where houses are allocated. */
function designOf(plan: SizedPlan): PlannedDesign {
  const { planning } = plan;
  const arms = armCounts(plan);
  const on = (side: 'treated' | 'untreated') => arms.reduce((sum, arm) => sum + (arm.side === side ? arm.count : 0), 0);
  const [treated, untreated] = [on('treated'), on('untreated')];
  switch (planning.design) {
    case 'complete':
      return { kind: 'complete', treated, untreated };
    case 'houses':
      return { kind: 'houses', treated, untreated, wallsPerHouse: planning.wallsPerHouse ?? 1 };
    case 'pairs':
      return { kind: 'pairs', pairs: planning.walls / 2 };
    case 'blocks':
      return {
        kind: 'blocks',
        blocks: planning.walls / arms.reduce((sum, { count }) => sum + count, 0),
        treated,
        untreated,
      };
    case 'two-walls':
      return { kind: 'two-walls' };
  }
}

/** How often each arm is drawn in one go. */
function armCounts(plan: SizedPlan): readonly ArmCount[] {
  const { arms, planning } = plan;
  const sides = comparisonSides(plan);
  const houses = planning.design === 'houses' ? (planning.wallsPerHouse ?? 1) : 1;
  const alike =
    planning.design === 'complete' || planning.design === 'houses' ? planning.walls / houses / arms.length : 1;
  return arms.map(({ arm }, at) => ({
    arm,
    count: planning.perArm?.[at] ?? alike,
    side: sides.get(arm) ?? 'untreated',
  }));
}

/** Named walls where the plan names them; else W01 and so on, in blocks or houses in their order. */
function allocationPlan(plan: SizedPlan): AllocationPlan {
  const { planning, allocation } = plan;
  const arms = armCounts(plan);
  const kind = planning.design === 'two-walls' ? 'complete' : planning.design;
  const size =
    kind === 'complete'
      ? 0
      : kind === 'houses'
        ? (planning.wallsPerHouse ?? 1)
        : arms.reduce((sum, { count }) => sum + count, 0);
  const walls =
    planning.list?.map(({ wall, block, site, before }): WallToAllocate => {
      const group = kind === 'houses' ? site : block;
      return {
        wall,
        ...(kind === 'complete' || group === undefined ? {} : { group }),
        ...(before === undefined ? {} : { before }),
      };
    }) ?? numbered(planning.walls, size, kind);
  const most = allocation.mostBeforeDifference;
  return { kind, walls, arms, ...(most === undefined ? {} : { mostBeforeDifference: most }) };
}

function numbered(count: number, size: number, kind: AllocationPlan['kind']): readonly WallToAllocate[] {
  const digits = Math.max(2, String(count).length);
  const name = (letter: string, number: number) => `${letter}${String(number).padStart(digits, '0')}`;
  const letter = kind === 'pairs' ? 'P' : kind === 'houses' ? 'H' : 'B';
  return Array.from({ length: count }, (_, at) => ({
    wall: name('W', at + 1),
    ...(size === 0 ? {} : { group: name(letter, Math.floor(at / size) + 1) }),
  }));
}
