import type { Side, WallChange } from '../../analysis/index.js';
import {
  evaporationCeiling,
  evaporationFromPressure,
  isDryingError,
  moistureTransfer_kg_m2_s_pa,
  mostEvaporationUnrecorded_mm_d,
  type SteadyState,
  steadyBefore,
} from '../../drying/index.js';
import type { MoistureReading } from '../../moisture/index.js';
import { mean } from '../../statistics/index.js';
import { isInWindow, type Trial, unitsPerPercentByMass } from '../../trial/index.js';
import { curvesOfWalls, daysBetween, outcomeReadings } from './wall-curves.js';
import { dailyPressure } from './weather.js';

/** What drying says against a trial's readings, for the weaknesses. */
export interface DryingChecks {
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
  readonly days: number;
  readonly evaporation_mm_d: number;
  readonly isFromClimate: boolean;
}

const fewestVisits = 4;
/** Of light brick: a heavier wall could have lost less, so that the ceiling is meant to be high. */
const lightDensity_kg_m3 = 1500;
const faces = 2;

export function dryingChecks(
  trial: Trial,
  readings: readonly MoistureReading[],
  sides: ReadonlyMap<string, Side>,
  walls: readonly WallChange[],
): DryingChecks {
  const steady = steadyOf(trial, readings, sides);
  return { ...(steady === undefined ? {} : { steady }), beyondCeiling: beyondCeiling(trial, walls) };
}

function steadyOf(trial: Trial, readings: readonly MoistureReading[], sides: ReadonlyMap<string, Side>) {
  const { windows, confidence } = trial.protocol;
  if (windows === undefined) return undefined;
  const before = outcomeReadings(trial, readings, sides).filter(({ day }) => isInWindow(day, windows.before));
  const { curves } = curvesOfWalls(trial, before, sides, windows.before.from);
  const long = curves.filter(({ times_d }) => times_d.length >= fewestVisits);
  if (long.length < 2) return undefined;
  try {
    const days = long.flatMap((curve) => curve.times_d);
    return { ...steadyBefore(long, { level: confidence }), window_d: Math.max(...days) - Math.min(...days) };
  } catch (error) {
    if (isDryingError(error)) return undefined;
    throw error;
  }
}

/** From the first day of the before window to the last of the after window: longer than any wall had. */
function beyondCeiling(trial: Trial, walls: readonly WallChange[]): readonly BeyondCeiling[] {
  const { windows, outcome } = trial.protocol;
  const scale = unitsPerPercentByMass(outcome.unit);
  if (windows === undefined || scale === undefined || outcome.better === 'higher') return [];
  const days = daysBetween(windows.before.from, windows.after.to);
  const air = fromClimate(trial, windows.before.from, windows.after.to);
  const evaporation_mm_d = faces * (air ?? mostEvaporationUnrecorded_mm_d);
  const thickness = new Map(trial.walls.map(({ wall, thickness_mm }) => [wall, thickness_mm]));
  return walls
    .flatMap(({ wall, change }) => {
      const thickness_mm = thickness.get(wall);
      if (thickness_mm === undefined || !(thickness_mm > 0) || !(days > 0) || !(evaporation_mm_d > 0)) return [];
      const inPercent = evaporationCeiling({
        thickness_mm,
        density_kg_m3: lightDensity_kg_m3,
        evaporation_mm_d,
        period_d: days,
      });
      const [lost, ceiling] = [-change, inPercent * scale];
      return lost > ceiling ? [{ wall, lost, ceiling, days, evaporation_mm_d, isFromClimate: air !== undefined }] : [];
    })
    .sort((one, other) => other.lost - other.ceiling - (one.lost - one.ceiling));
}

/** Of one face, by the higher coefficient; undefined where the record covers less than half of the days. */
function fromClimate(trial: Trial, from: string, to: string): number | undefined {
  const daily = dailyPressure(trial).filter(({ day }) => day >= from && day <= to);
  if (daily.length < 2 || daysBetween(daily[0]?.day ?? '', daily.at(-1)?.day ?? '') < daysBetween(from, to) / 2)
    return undefined;
  const mean_pa = mean(daily.map(({ pressure_pa }) => pressure_pa));
  return evaporationFromPressure(mean_pa, moistureTransfer_kg_m2_s_pa.outdoors);
}
