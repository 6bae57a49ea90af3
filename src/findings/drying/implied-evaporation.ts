import type { Reason, Side } from '../../analysis/index.js';
import {
  assumedWall,
  evaporationFromPressure,
  evaporationImplied,
  evaporationInSun_mm_d,
  moistureTransfer_kg_m2_s_pa,
  mostEvaporationUnrecorded_mm_d,
} from '../../drying/index.js';
import type { MoistureReading } from '../../moisture/index.js';
import { daysBetween } from '../../plain/days.js';
import { groupBy } from '../../plain/group-by.js';
import { mean } from '../../statistics/index.js';
import { type DayOfWall, daySorter, type Trial, unitsPerPercentByMass, type Wall } from '../../trial/index.js';
import { placesBeside, type RecordSource } from '../air/places-beside.js';
import { pressureByWall } from '../air/pressure-by-wall.js';
import { meanOfWalls } from '../cores/mean-of-walls.js';
import { meanPressure } from './mean-pressure.js';
import { type NumberRead, outcomeReadings } from './wall-curves.js';
import { hasNoWindows } from './windows-of-walls.js';

/** What the walls must have evaporated to fall as they did, or why that is not known. */
export type ImpliedEvaporation =
  | { readonly kind: 'not-computed'; readonly reason: Reason }
  | {
      readonly kind: 'computed';
      readonly walls: readonly ImpliedOfWall[];
      /** Treated arms first. */
      readonly arms: readonly ImpliedOfArm[];
      /** Walls read in both windows whose thickness is not on record. */
      readonly withoutThickness: readonly string[];
    };

export interface ImpliedOfWall {
  readonly wall: string;
  readonly arm: string;
  readonly side: Side;
  /** First and last day of the readings compared. */
  readonly from: string;
  readonly to: string;
  /** From a station’s last reading before to the visit after by which the wall had fallen fastest, mean over the stations. */
  readonly days: number;
  /** Over those days, percentage points by mass, mean over the stations; negative for a wall that became wetter. */
  readonly fall_pp: number;
  readonly thickness_mm: number;
  readonly density_kg_m3: number;
  readonly isDensityStated: boolean;
  readonly lost_kg_m2: number;
  /** All open faces together; 1 mm of water is 1 kg/m². */
  readonly evaporation_mm_d: number;
  readonly air: AirLimit;
  readonly exceedsAir: boolean;
}

/** What the air could take from a wall that stays wet, all faces together and sunshine included. */
export interface AirLimit {
  readonly evaporation_mm_d: number;
  /** Whose record it rests on; `none` where nothing of the air was recorded over half of the days. */
  readonly source: RecordSource | 'none';
  /** Mean over the days; absent without a record. */
  readonly pressure_pa?: number;
  /** Whether it was raised to what is told of walls at most, for heating is on record and the heated air is not. */
  readonly isRaised: boolean;
  /** Whether the wall’s own place says so: rain is recorded outdoors, hours of heating indoors. */
  readonly exposure: Exposure;
}

type Exposure = 'indoors' | 'outdoors' | 'not-stated';

export interface ImpliedOfArm {
  readonly arm: string;
  readonly side: Side;
  readonly walls: number;
  /** Means over the walls. */
  readonly days: number;
  readonly lost_kg_m2: number;
  readonly evaporation_mm_d: number;
  readonly most_mm_d: number;
  readonly air_mm_d: number;
  /** Walls whose evaporation lies above what their air could take. */
  readonly exceeding: number;
  /** Whether the arm as a whole lies above: the lower limit of the mean of what walls lost beyond it is above zero. */
  readonly exceedsAir: boolean;
}

/**
 * Of every wall that was read in both windows: the water that left it between its last readings before and the visit after by which it had
 * fallen fastest, and what the air could take in those days. The limit is meant to be high: surfaces that stay wet and as warm as the air, both faces open, the
 * coefficient of wind outdoors unless the wall’s own place is indoors. Where the air is not that of the wall’s own place and heating is on
 * record, or no air is, it is no less than what is told of walls at most.
 */
export function impliedEvaporation(
  trial: Trial,
  readings: readonly MoistureReading[],
  sides: ReadonlyMap<string, Side>,
): ImpliedEvaporation {
  const { outcome, confidence } = trial.protocol;
  if (hasNoWindows(trial)) return { kind: 'not-computed', reason: { code: 'no-windows' } };
  if (outcome.better === 'higher') return { kind: 'not-computed', reason: { code: 'higher-is-better' } };
  const scale = unitsPerPercentByMass(outcome.unit);
  if (scale === undefined) return { kind: 'not-computed', reason: { code: 'unit-without-mass', unit: outcome.unit } };
  const limitOf = airLimits(trial);
  const sorted = daySorter(trial);
  const byWall = groupBy(outcomeReadings(trial, readings, sides), ({ wall }) => wall);
  const withoutThickness: string[] = [];
  const walls = trial.walls.flatMap((wall): ImpliedOfWall[] => {
    const side = sides.get(wall.wall);
    const read = (byWall.get(wall.wall) ?? []).map((one) => ({ ...one, moisture: one.moisture / scale }));
    const fall = fallOfWall(read, (day) => sorted(wall.wall, day));
    if (side === undefined || fall === undefined) return [];
    if (wall.thickness_mm === undefined || !(wall.thickness_mm > 0)) {
      withoutThickness.push(wall.wall);
      return [];
    }
    return [{ ...ofWall(wall, fall, limitOf), side }];
  });
  if (walls.length === 0) {
    const code = withoutThickness.length > 0 ? 'no-thickness' : 'not-in-both-windows';
    return { kind: 'not-computed', reason: { code } };
  }
  return { kind: 'computed', walls, arms: armsOf(walls, confidence), withoutThickness };
}

type Fall = Pick<ImpliedOfWall, 'from' | 'to' | 'days' | 'fall_pp'>;

/**
 * Shorter falls are left aside where there are longer ones: they say more of the scatter of readings than of water (our convention).
 */
const shortest_d = 7;

/**
 * Station by station, so that stations read on different days are no change: from the last reading before to the first after, to the second,
 * and so on. The visit by which the wall had fallen fastest counts; a wall that dries all through the after window would seem slow by its first.
 */
function fallOfWall(readings: readonly NumberRead[], windowOf: (day: string) => DayOfWall): Fall | undefined {
  const stations = [...groupBy(readings, ({ station }) => station).values()].flatMap((own) => {
    const falls = fallsOfStation(own, windowOf);
    return falls.length === 0 ? [] : [falls];
  });
  if (stations.length === 0) return undefined;
  const visits = Math.min(...stations.map((falls) => falls.length));
  const byVisit = Array.from({ length: visits }, (_, visit) => {
    const falls = stations.flatMap((each) => each[visit] ?? []);
    return {
      from: falls.map(({ from }) => from).sort()[0] ?? '',
      to:
        falls
          .map(({ to }) => to)
          .sort()
          .at(-1) ?? '',
      days: mean(falls.map(({ days }) => days)),
      fall_pp: mean(falls.map((each) => each.fall_pp)),
    };
  }).filter(({ days }) => days > 0);
  const long = byVisit.filter(({ days }) => days >= shortest_d);
  const [fastest] = (long.length > 0 ? long : byVisit.slice(-1)).toSorted((one, other) => rateOf(other) - rateOf(one));
  return fastest;
}

function rateOf({ fall_pp, days }: Fall): number {
  return fall_pp / days;
}

/** From the last day before its treatment to every day after, in order. */
function fallsOfStation(readings: readonly NumberRead[], windowOf: (day: string) => DayOfWall): readonly Fall[] {
  const days = groupBy(readings, ({ day }) => day);
  const inOrder = [...days]
    .sort(([one], [other]) => (one < other ? -1 : 1))
    .map(([day, own]) => ({
      day,
      moisture: mean(own.map(({ moisture }) => moisture)),
    }));
  const before = inOrder.findLast(({ day }) => windowOf(day) === 'before');
  if (before === undefined) return [];
  return inOrder
    .filter(({ day }) => windowOf(day) === 'after')
    .map(({ day, moisture }) => ({
      from: before.day,
      to: day,
      days: daysBetween(before.day, day),
      fall_pp: before.moisture - moisture,
    }));
}

function ofWall(
  { wall, arm, thickness_mm = assumedWall.thickness_mm, dryDensity_kg_m3 }: Wall,
  fall: Fall,
  limitOf: (wall: string, from: string, to: string) => AirLimit,
): Omit<ImpliedOfWall, 'side'> {
  const isDensityStated = dryDensity_kg_m3 !== undefined && dryDensity_kg_m3 > 0;
  const density_kg_m3 = isDensityStated ? dryDensity_kg_m3 : assumedWall.density_kg_m3;
  const implied = evaporationImplied({ fall_pp: fall.fall_pp, thickness_mm, density_kg_m3, period_d: fall.days });
  const air = limitOf(wall, fall.from, fall.to);
  const exceedsAir = implied.evaporation_mm_d > air.evaporation_mm_d;
  return { wall, arm, ...fall, thickness_mm, density_kg_m3, isDensityStated, ...implied, air, exceedsAir };
}

function airLimits(trial: Trial): (wall: string, from: string, to: string) => AirLimit {
  const pressureOf = pressureByWall(trial, 'as-the-air');
  const exposureOf = exposureOfWalls(trial);
  const heated = trial.climate.flatMap(({ place, heating_h = 0 }) => (heating_h > 0 ? [place] : []));
  const heatingBeside = placesBeside(trial.walls, [...new Set(heated)]);
  const { faces } = assumedWall;
  return (wall, from, to) => {
    const exposure = exposureOf(wall);
    const record = pressureOf(wall);
    const pressure_pa = record === undefined ? undefined : meanPressure(record.daily, from, to);
    const sun = exposure === 'outdoors' ? evaporationInSun_mm_d : 0;
    const unrecorded = faces * mostEvaporationUnrecorded_mm_d;
    if (record === undefined || pressure_pa === undefined)
      return { evaporation_mm_d: unrecorded + sun, source: 'none', isRaised: false, exposure };
    const transfer = moistureTransfer_kg_m2_s_pa[exposure === 'indoors' ? 'indoors' : 'outdoors'];
    const taken = faces * evaporationFromPressure(pressure_pa, transfer);
    const isRaised = record.source !== 'own' && heatingBeside(wall) !== undefined && taken < unrecorded;
    const evaporation_mm_d = (isRaised ? unrecorded : taken) + sun;
    return { evaporation_mm_d, source: record.source, pressure_pa, isRaised, exposure };
  };
}

/** By what was recorded at the wall’s own site; a site with both says neither. */
function exposureOfWalls({ climate, walls }: Trial): (wall: string) => Exposure {
  const wet = new Set(climate.flatMap(({ place, rain_mm }) => (rain_mm === undefined ? [] : [place])));
  const heated = new Set(climate.flatMap(({ place, heating_h }) => (heating_h === undefined ? [] : [place])));
  const siteOf = new Map(walls.map(({ wall, site = '' }) => [wall, site]));
  return (wall) => {
    const site = siteOf.get(wall) ?? '';
    if (wet.has(site) === heated.has(site)) return 'not-stated';
    return wet.has(site) ? 'outdoors' : 'indoors';
  };
}

function armsOf(walls: readonly ImpliedOfWall[], level: number): readonly ImpliedOfArm[] {
  const sorted = walls.toSorted((one, other) => Number(other.side === 'treated') - Number(one.side === 'treated'));
  return [...groupBy(sorted, ({ arm }) => arm)].flatMap(([arm, own]): ImpliedOfArm[] => {
    const [first] = own;
    const beyond = meanOfWalls(
      own.map(({ evaporation_mm_d, air }) => evaporation_mm_d - air.evaporation_mm_d),
      level,
    );
    if (first === undefined || beyond === undefined) return [];
    const evaporations = own.map(({ evaporation_mm_d }) => evaporation_mm_d);
    return [
      {
        arm,
        side: first.side,
        walls: own.length,
        days: mean(own.map(({ days }) => days)),
        lost_kg_m2: mean(own.map(({ lost_kg_m2 }) => lost_kg_m2)),
        evaporation_mm_d: mean(evaporations),
        most_mm_d: Math.max(...evaporations),
        air_mm_d: mean(own.map(({ air }) => air.evaporation_mm_d)),
        exceeding: own.filter(({ exceedsAir }) => exceedsAir).length,
        exceedsAir: (beyond.interval?.lower ?? beyond.mean) > 0,
      },
    ];
  });
}
