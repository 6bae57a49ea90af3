import type { Side } from '../../analysis/index.js';
import { isDryingError, type SteadyState, steadyBefore } from '../../drying/index.js';
import type { MoistureReading } from '../../moisture/index.js';
import { present } from '../../plain/present.js';
import { unlessRefused } from '../../plain/unless-refused.js';
import { daySorter, type Trial, unitsPerPercentByMass, windowsOf } from '../../trial/index.js';
import { type DryingFacts, dryingFacts } from './drying-facts.js';
import type { ImpliedEvaporation } from './implied-evaporation.js';
import { curvesOfWalls, outcomeReadings } from './wall-curves.js';

/** What drying says against a trial's readings, for the weaknesses. */
export interface DryingChecks extends DryingFacts {
  /** Of the before window; absent where fewer than two walls have four visits in it. */
  readonly steady?: SteadyState & { readonly window_d: number };
  /** Walls that lost more than they can have evaporated, the one furthest beyond first. */
  readonly beyondCeiling: readonly BeyondCeiling[];
}

interface BeyondCeiling {
  readonly wall: string;
  /** In the outcome's unit. */
  readonly lost: number;
  readonly ceiling: number;
  /** From its last readings before to its first after. */
  readonly days: number;
  readonly evaporation_mm_d: number;
  readonly isFromClimate: boolean;
}

const fewestVisits = 4;

export function dryingChecks(
  trial: Trial,
  readings: readonly MoistureReading[],
  sides: ReadonlyMap<string, Side>,
): DryingChecks {
  const steady = steadyOf(trial, readings, sides);
  const facts = dryingFacts(trial, readings, sides);
  const beyond = beyondCeiling(trial, facts.implied);
  return { ...facts, ...present({ steady }), beyondCeiling: beyond };
}

function steadyOf(trial: Trial, readings: readonly MoistureReading[], sides: ReadonlyMap<string, Side>) {
  const { confidence } = trial.protocol;
  const sorted = daySorter(trial);
  const before = outcomeReadings(trial, readings, sides).filter(({ wall, day }) => sorted(wall, day) === 'before');
  const { curves } = curvesOfWalls(trial, before, sides, (wall) => windowsOf(trial, wall)?.before.from ?? '');
  const long = curves.filter(({ times_d }) => times_d.length >= fewestVisits);
  if (long.length < 2) return undefined;
  return unlessRefused(isDryingError, () => {
    const days = long.flatMap((curve) => curve.times_d);
    return { ...steadyBefore(long, { level: confidence }), window_d: Math.max(...days) - Math.min(...days) };
  });
}

/** Walls of arms that as a whole lost more than their air could take: one wall of many may do so by the scatter of its readings. */
function beyondCeiling(trial: Trial, implied: ImpliedEvaporation): readonly BeyondCeiling[] {
  const scale = unitsPerPercentByMass(trial.protocol.outcome.unit);
  if (implied.kind === 'not-computed' || scale === undefined) return [];
  const arms = new Set(implied.arms.filter(({ exceedsAir }) => exceedsAir).map(({ arm }) => arm));
  return implied.walls
    .filter(({ arm, exceedsAir }) => exceedsAir && arms.has(arm))
    .map(({ wall, fall_pp, days, evaporation_mm_d, air }) => {
      // Water is in proportion to evaporation, wall by wall.
      const ceiling = (fall_pp * air.evaporation_mm_d) / evaporation_mm_d;
      const limit = { evaporation_mm_d: air.evaporation_mm_d, isFromClimate: air.source !== 'none' };
      return { wall, lost: fall_pp * scale, ceiling: ceiling * scale, days, ...limit };
    })
    .sort((one, other) => other.lost - other.ceiling - (one.lost - one.ceiling));
}
