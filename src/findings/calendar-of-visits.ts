import type { MoistureReading } from '../moisture/index.js';
import { isoDay } from '../plain/days.js';
import { distinctBy } from '../plain/group-by.js';
import type { ArmRole, Trial } from '../trial/index.js';
import { visitsOf } from './visits.js';

/** When one wall was read, cored and treated; all of them ISO days, in their order. */
interface WallCalendar {
  readonly wall: string;
  /** Days with a reading of the outcome's instrument, but for days with a core. */
  readonly read: readonly string[];
  /** Days with a weighed core, whether or not cores are the outcome. */
  readonly cored: readonly string[];
  /** First days of visits at which more than half of the walls were read and this one was not. */
  readonly missed: readonly string[];
  readonly treatedOn?: string;
  /** Its before and after windows. */
  readonly windows: readonly { readonly from: string; readonly to: string }[];
}

export interface ArmCalendar {
  readonly arm: string;
  readonly walls: readonly WallCalendar[];
}

/**
 * The calendar of visits: every wall of every arm that was read or cored, treated arms first. A visit is missed where more than half of the walls
 * were read at it (our convention): walls that are visited in turn miss nothing. Where sensors read every day, a visit is a month.
 *
 * @example calendarOfVisits(trial, readings).map(({ arm, walls }) => `${arm}: ${walls.length}`) // ['device: 12', 'sham: 12']
 */
export function calendarOfVisits(trial: Trial, readings: readonly MoistureReading[]): readonly ArmCalendar[] {
  const { protocol, walls } = trial;
  const { instrument } = protocol.outcome;
  const kindOf = new Map(protocol.instruments.map((one) => [one.instrument, one.kind]));
  const taken = readings.filter(({ value }) => value.kind !== 'missing');
  const outcome = taken.filter((reading) => reading.instrument === instrument);
  const cores = taken.filter((reading) => kindOf.get(reading.instrument) === 'gravimetric');
  const readOn = daysByWall(outcome);
  const coredOn = daysByWall(cores);
  const common = visitsOf(outcome, kindOf.get(instrument) === 'embedded-sensor' ? 'month' : 'place')
    .map((visit) => ({ from: visit.from, walls: new Set(visit.readings.map(({ wall }) => wall)) }))
    .filter((visit) => visit.walls.size > readOn.size / 2);
  const inOrder = [...protocol.arms].sort((one, other) => treatedFirst(one.role) - treatedFirst(other.role));
  return inOrder.flatMap(({ arm, role }): ArmCalendar[] => {
    const own = walls.flatMap((wall): WallCalendar[] => {
      if (wall.arm !== arm) return [];
      const [read, cored] = [readOn.get(wall.wall) ?? [], coredOn.get(wall.wall) ?? []];
      if (read.length === 0 && cored.length === 0) return [];
      const { before, after } = wall.windows ?? protocol.windows ?? {};
      return [
        {
          wall: wall.wall,
          read: read.filter((day) => !cored.includes(day)),
          cored,
          missed: common.filter((visit) => !visit.walls.has(wall.wall)).map(({ from }) => from),
          // A sham may bear the day on which it was fitted; it is not a treatment.
          ...(wall.treatedOn === undefined || role !== 'treated' ? {} : { treatedOn: isoDay(wall.treatedOn) }),
          windows: [before, after].flatMap((window) => window ?? []),
        },
      ];
    });
    return own.length === 0 ? [] : [{ arm, walls: own }];
  });
}

function treatedFirst(role: ArmRole): number {
  return role === 'treated' ? 0 : 1;
}

function daysByWall(readings: readonly MoistureReading[]): ReadonlyMap<string, readonly string[]> {
  const days = distinctBy(
    readings,
    ({ wall }) => wall,
    ({ day }) => day,
  );
  return new Map([...days].map(([wall, own]) => [wall, [...own].sort()]));
}
