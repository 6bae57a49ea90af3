import type { Reason, Side } from '../../analysis/index.js';
import {
  assumedWall,
  moistureTransfer_kg_m2_s_pa,
  type WaitForMargin,
  waitForMargin,
  winterPressure_pa,
} from '../../drying/index.js';
import { addDays, daysBetween, isoDay } from '../../plain/days.js';
import { valuesBy } from '../../plain/group-by.js';
import { present } from '../../plain/present.js';
import { mean } from '../../statistics/index.js';
import { daySorter, type Trial, unitsPerPercentByMass, type Wall } from '../../trial/index.js';
import { type PressureOfWall, pressureByWall } from '../air/pressure-by-wall.js';
import { surfaceOfWalls } from '../air/surface-of-walls.js';
import { meanPressure } from './mean-pressure.js';
import { hasNoWindows } from './windows-of-walls.js';

/** How long after their treatment walls were read, and how long they need to lose the margin. */
export interface WaitOfTrial {
  /** Treated walls whose day of treatment is on record and that were read after it. */
  readonly walls: readonly WaitOfWall[];
  /** Treated walls that were read after, whose day of treatment is not on record. */
  readonly withoutDay: readonly string[];
  /** The wall read earliest, measured by its own wait; absent where there are no waits. */
  readonly worst?: TimedWall;
  /** Walls read before their wait was over. */
  readonly tooEarly: number;
  /** Of those, the walls read before the least time in which any wall can lose the margin. */
  readonly beforeLeast: number;
  /** Why no wait is computed; absent where one is. */
  readonly reason?: Reason;
}

export interface WaitOfWall {
  readonly wall: string;
  readonly treatedOn: string;
  /** From the treatment to the mean day of the wall’s after readings. */
  readonly days: number;
  readonly wait?: WaitOfOneWall;
}

export type TimedWall = WaitOfWall & Required<Pick<WaitOfWall, 'wait'>>;

export interface WaitOfOneWall extends WaitForMargin {
  readonly isTooEarly: boolean;
  /** What it was computed with. */
  readonly thickness_mm: number;
  readonly density_kg_m3: number;
  readonly pressure_pa: number;
  /**
   * Mean vapour pressure difference since the first treatment at the surface that stands for the wall, where its temperature was measured and the
   * difference is smaller than `pressure_pa`: the wait is then too short, for no statement about the air may lengthen it.
   */
  readonly surface_pa?: number;
  /** What of that is an assumption instead of the folder’s own statement. */
  readonly assumed: readonly ('thickness' | 'density' | 'pressure')[];
}

/**
 * For each treated wall, days from its own treatment to its after readings, and its own wait for the margin with both faces open.
 *
 * No statement can be left out to make a trial look less hasty: thickness and density count up to what is assumed without them, air only where it was
 * recorded at the wall’s own site and takes more than winter air indoors, and the coefficient of still air indoors counts everywhere.
 */
export function waitOfTrial(
  trial: Trial,
  walls: readonly { readonly wall: string; readonly side: Side }[],
): WaitOfTrial | undefined {
  if (hasNoWindows(trial)) return undefined;
  const treated = new Set(walls.flatMap(({ wall, side }) => (side === 'treated' ? [wall] : [])));
  const daysOf = afterDays(trial, treated);
  const read = trial.walls.filter(({ wall }) => daysOf.has(wall));
  const margin = marginOf(trial);
  const pressureOf = pressureByWall(trial, 'as-the-air');
  const surfaces = surfacesSinceTreatment(trial, read);
  const timed = read.flatMap((wall): WaitOfWall[] => {
    const { treatedOn } = wall;
    if (treatedOn === undefined) return [];
    const start = isoDay(treatedOn);
    const ends = (daysOf.get(wall.wall) ?? []).map((day) => daysBetween(start, day));
    const days = mean(ends);
    const wait =
      typeof margin === 'object'
        ? undefined
        : waitOfWall(wall, { margin, start, days, air: pressureOf(wall.wall), surface_pa: surfaces.get(wall.wall) });
    return [{ wall: wall.wall, treatedOn: start, days, ...present({ wait }) }];
  });
  const withWait = timed.flatMap(({ wait, ...wall }) => (wait === undefined ? [] : [{ ...wall, wait }]));
  const [worst] = withWait.toSorted((one, other) => shareOf(one) - shareOf(other));
  return {
    walls: timed,
    withoutDay: read.flatMap(({ wall, treatedOn }) => (treatedOn === undefined ? [wall] : [])),
    ...present({ worst }),
    tooEarly: withWait.filter(({ wait }) => wait.isTooEarly).length,
    beforeLeast: withWait.filter(({ days, wait }) => days < wait.least_d).length,
    ...(typeof margin === 'object' ? { reason: margin } : {}),
  };
}

function shareOf({ days, wait }: TimedWall): number {
  return days / wait.wait_d;
}

/** In percentage points by mass, or why there is none. */
function marginOf({ protocol: { margin, outcome } }: Trial): number | Reason {
  if (margin === undefined) return { code: 'no-margin' };
  if (outcome.better === 'higher') return { code: 'higher-is-better' };
  const scale = unitsPerPercentByMass(outcome.unit);
  return scale === undefined ? { code: 'unit-without-mass', unit: outcome.unit } : margin / scale;
}

interface ToLose {
  readonly margin: number;
  readonly start: string;
  readonly days: number;
  readonly air: PressureOfWall | undefined;
  readonly surface_pa: number | undefined;
}

function surfacesSinceTreatment(trial: Trial, walls: readonly Wall[]): ReadonlyMap<string, number> {
  const [first] = walls.flatMap(({ treatedOn }) => (treatedOn === undefined ? [] : [isoDay(treatedOn)])).sort();
  if (first === undefined) return new Map();
  const surfaces = surfaceOfWalls(trial, (day) => day >= first);
  return new Map(surfaces.map(({ wall, evaporation_pa }) => [wall, evaporation_pa]));
}

function waitOfWall(wall: Wall, { margin, start, days, air, surface_pa }: ToLose): WaitOfOneWall {
  const thickness_mm = upTo(assumedWall.thickness_mm, wall.thickness_mm);
  const density_kg_m3 = upTo(assumedWall.density_kg_m3, wall.dryDensity_kg_m3);
  const until = addDays(start, days);
  const recorded = air?.source === 'own' ? meanPressure(air.daily, start, until) : undefined;
  const pressure_pa = Math.max(winterPressure_pa, recorded ?? 0);
  const wait = waitForMargin({
    margin_pp: margin,
    thickness_mm,
    density_kg_m3,
    pressure_pa,
    faces: assumedWall.faces,
    transfer_kg_m2_s_pa: moistureTransfer_kg_m2_s_pa.indoors,
  });
  return {
    ...wait,
    isTooEarly: days < wait.wait_d,
    thickness_mm,
    density_kg_m3,
    pressure_pa,
    ...(surface_pa === undefined || surface_pa >= pressure_pa ? {} : { surface_pa }),
    assumed: [
      ...(thickness_mm === wall.thickness_mm ? [] : ['thickness' as const]),
      ...(density_kg_m3 === wall.dryDensity_kg_m3 ? [] : ['density' as const]),
      ...(pressure_pa === recorded ? [] : ['pressure' as const]),
    ],
  };
}

function upTo(most: number, stated: number | undefined): number {
  return stated !== undefined && stated > 0 ? Math.min(stated, most) : most;
}

/** Days of the readings of the outcome that are numbers, in each wall’s after window; masses of a core are a number. */
function afterDays(trial: Trial, walls: ReadonlySet<string>): ReadonlyMap<string, readonly string[]> {
  const { outcome, instruments } = trial.protocol;
  const balance = instruments.find(({ kind }) => kind === 'gravimetric')?.instrument;
  const read = [
    ...trial.readings.filter(({ instrument, value }) => instrument === outcome.instrument && value.kind === 'measured'),
    ...(balance === outcome.instrument
      ? trial.cores.filter(({ wet_g, dry_g }) => wet_g !== undefined && dry_g !== undefined)
      : []),
  ];
  const sorted = daySorter(trial);
  return valuesBy(
    read,
    ({ wall }) => (walls.has(wall) ? wall : undefined),
    ({ wall, date }) => (sorted(wall, isoDay(date)) === 'after' ? isoDay(date) : undefined),
  );
}
