import { addDays, daysBetween } from '../../../src/plain/days.js';
import type { ClimateReading, Trial } from '../../../src/trial/index.js';
import { MARGIN, treatmentDays } from './base.js';
import { isTreated, keepWalls, moved, noted, type Taken, without, withProtocol, withWalls } from './change-trial.js';
import { dropStatement } from './drop-statement.js';
import { type Fault, twoWalls, walls } from './fault.js';

const masses = 'cores.wet_g';
const domain = 'departures and timing';
const strong = walls({ effect: -2 * MARGIN });

const inTreatedAfter =
  (points: number) =>
  ({ isTreated: treated, isAfter }: Taken): number =>
    treated && isAfter ? points : 0;

/** The diary says so too. */
function treatedOn(trial: Trial, dayOf: (at: number) => string): Trial {
  const days = trial.walls.map((_, at) => dayOf(at));
  const last = [...days].sort().at(-1) ?? '';
  return {
    ...withWalls(trial, (wall, at) => ({ ...wall, treatedOn: days[at] ?? '' })),
    events: trial.events.map((event) => (event.kind === 'installed' ? { ...event, date: last } : event)),
  };
}

/** The walls of each arm are done one after the other, on the given days. */
function treatedInTurn(trial: Trial, days: readonly string[]): Trial {
  const counts = { treated: 0, untreated: 0 };
  const turns = trial.walls.map((wall) => {
    const side = isTreated(trial, wall) ? 'treated' : 'untreated';
    counts[side] += 1;
    return counts[side] - 1;
  });
  return treatedOn(trial, (at) => days[turns[at] ?? 0] ?? '');
}

/** Visits on other days, with what was noted on the last of them. */
function visitedOn(trial: Trial, days: ReadonlyMap<string, string>): Trial {
  const move = (day: string) => days.get(day) ?? day;
  return {
    ...noted(trial, ({ day }) => ({ date: move(day) })),
    beliefs: trial.beliefs.map((belief) => ({
      ...belief,
      date: move(belief.date),
      ...(belief.readingDate === undefined ? {} : { readingDate: move(belief.readingDate) }),
    })),
  };
}

function tooEarly(trial: Trial): Trial {
  const days = new Map([
    ['2025-03-05', '2025-03-03'],
    ['2025-04-02', '2025-03-12'],
    ['2025-05-07', '2025-03-24'],
  ]);
  const late = treatedOn(visitedOn(trial, days), () => '2025-02-24');
  return moved(late, inTreatedAfter(0.95 * 2 * MARGIN));
}

/** Of the treatment's effect, a wall has had the less the later it was treated. */
function spreadOut(trial: Trial): Trial {
  const days = Array.from({ length: 8 }, (_, turn) => addDays(treatmentDays[0], 34 * turn));
  const spread = treatedInTurn(trial, days);
  return moved(spread, ({ isTreated: treated, isAfter, wall }) => {
    if (!treated || !isAfter) return 0;
    return 2 * MARGIN * (daysBetween(treatmentDays[0], wall.treatedOn ?? '') / (34 * 7));
  });
}

const autumn = { from: '2024-09-01', to: '2024-11-30' };

/** Before in autumn and after in spring, when all walls hold less. */
function inAutumn(trial: Trial): Trial {
  const before = trial.cores.flatMap(({ date }) => (date < treatmentDays[0] ? date : []));
  const days = new Map([...new Set(before)].map((day) => [day, addDays(day, 184)]));
  const { windows } = trial.protocol;
  if (windows === undefined) throw new Error('the sound trial states windows');
  const shifted = treatedOn(visitedOn(trial, days), () => '2024-12-10');
  return withProtocol(
    moved(shifted, ({ isAfter }) => (isAfter ? -MARGIN : 0)),
    { windows: { ...windows, before: autumn } },
  );
}

function withAir(trial: Trial, changed: (row: ClimateReading) => ClimateReading): Trial {
  return { ...trial, climate: trial.climate.map(changed) };
}

const damp = ({ relative_humidity_pct = 0 }: ClimateReading) => relative_humidity_pct;

/** A dehumidifier in the rooms of the treated walls. */
function drierBesideTreated(trial: Trial): Trial {
  const sites = new Set(trial.walls.flatMap((wall) => (isTreated(trial, wall) ? (wall.site ?? []) : [])));
  const drier = withAir(trial, (row) =>
    sites.has(row.place) && row.time >= treatmentDays[0] ? { ...row, relative_humidity_pct: damp(row) - 25 } : row,
  );
  return moved(drier, inTreatedAfter(-MARGIN));
}

/** Magnus's formula; Pa. */
const deficitOf = ({ temperature_c = 0, relative_humidity_pct = 0 }: ClimateReading) =>
  611.2 * Math.exp((17.62 * temperature_c) / (243.12 + temperature_c)) * (1 - relative_humidity_pct / 100);

/** The treated wall follows the air, the other does not, and the year after is drier. */
function followsTheAir(trial: Trial): Trial {
  const drier = withAir(trial, (row) =>
    row.time >= '2024-06-15' ? { ...row, relative_humidity_pct: damp(row) - 35 } : row,
  );
  const middle = trial.climate.reduce((sum, row) => sum + deficitOf(row), 0) / trial.climate.length;
  return moved(drier, ({ isTreated: treated, day }) => {
    if (!treated) return 0;
    const weeks = drier.climate.filter(({ time }) => time <= day && daysBetween(time, day) < 30);
    return -0.004 * (weeks.reduce((sum, row) => sum + deficitOf(row), 0) / weeks.length - middle);
  });
}

const eventRow = { file: 'diary.csv', row: 9 };

/** A pipe that leaks behind three untreated walls. */
function leaking(trial: Trial): Trial {
  const struck = trial.walls.filter((wall) => !isTreated(trial, wall)).slice(0, 3);
  const names = new Set(struck.map(({ wall }) => wall));
  const leaks = struck.map(({ wall }) => ({
    ...{ date: '2025-02-20', wall, kind: 'leak' as const, note: 'a pipe leaked behind the wall', origin: eventRow },
  }));
  return moved({ ...trial, events: [...trial.events, ...leaks] }, ({ isAfter, wall }) =>
    isAfter && names.has(wall.wall) ? 6 : 0,
  );
}

/** Four untreated walls stand beside a treated one and dry with it. */
function besideTreated(trial: Trial): Trial {
  const treated = trial.walls.filter((wall) => isTreated(trial, wall));
  const beside = trial.walls.filter((wall) => !isTreated(trial, wall)).slice(0, 4);
  const neighbourOf = new Map(beside.map(({ wall }, at) => [wall, treated[at]?.wall ?? '']));
  const stated = withWalls(trial, (wall) => {
    const neighbour = neighbourOf.get(wall.wall);
    return { ...wall, neighbours: neighbour === undefined ? [] : [neighbour] };
  });
  return moved(stated, ({ isAfter, wall }) => (isAfter && neighbourOf.has(wall.wall) ? -3.5 : 0));
}

const toAutumn = ['protocol.windows.before.from', 'protocol.windows.before.to', 'events.date'];

export const faultsOfTiming: readonly Fault[] = [
  {
    ...{ name: 'windows-absent', domain, codes: ['windows-absent'], in: walls(), changes: ['protocol.windows'] },
    planted: 'the plan does not say what is before and what after',
    plant: (trial) => {
      const { windows: _, ...protocol } = trial.protocol;
      return { ...trial, protocol };
    },
  },
  {
    ...{ name: 'treatment-day-not-stated', domain, codes: ['treatment-day-not-stated'], in: walls() },
    planted: 'no wall has a day of treatment',
    changes: ['walls.treatedOn'],
    plant: (trial) => dropStatement(trial, 'treatment days'),
  },
  {
    ...{ name: 'read-after-treatment', domain, codes: ['read-after-treatment'], in: strong },
    planted: 'all walls treated on 20 March: two of three before visits came later, and found the effect of 4',
    changes: ['walls.treatedOn', 'events.date', masses],
    plant: (trial) =>
      moved(
        treatedOn(trial, () => '2024-03-20'),
        (taken) => (taken.isTreated && !taken.isAfter && taken.day > '2024-03-20' ? -2 * MARGIN : 0),
      ),
  },
  {
    ...{ name: 'after-too-early', domain, codes: ['after-too-early'], in: strong },
    planted: 'cores 7 to 28 days after the treatment, when 5 % of the effect of 4 has come',
    changes: ['walls.treatedOn', 'events.date', 'cores.date', 'beliefs.date', 'beliefs.readingDate', masses],
    plant: tooEarly,
  },
  {
    ...{ name: 'treatment-spread', domain, codes: ['treatment-spread'], in: strong },
    planted: 'walls treated one by one through eight months; the later, the less of the effect of 4 has come',
    changes: ['walls.treatedOn', 'events.date', masses],
    plant: spreadOut,
  },
  {
    ...{ name: 'days-unlike', domain, codes: ['days-unlike'], in: walls() },
    planted: 'treated walls read three weeks later after the treatment, when all walls had dried by 2',
    changes: ['cores.date', masses],
    plant: (trial) =>
      noted(moved(trial, inTreatedAfter(-MARGIN)), ({ isTreated: treated, isAfter, day }) =>
        treated && isAfter ? { date: addDays(day, 21) } : {},
      ),
  },
  {
    ...{ name: 'windows-in-different-months', domain, codes: ['windows-in-different-months'], in: walls() },
    planted: 'before in autumn, after in spring, when all walls are drier by 2',
    changes: [...toAutumn, 'walls.treatedOn', 'cores.date', masses],
    plant: inAutumn,
  },
  {
    ...{ name: 'other-months-without-untreated', domain, codes: ['windows-in-different-months'], in: walls() },
    planted: 'treated walls only, before in autumn, after in spring, when they are drier by 2',
    changes: [...toAutumn, 'walls', 'stations', 'cores', 'climate', 'beliefs'],
    plant: (trial) => keepWalls(inAutumn(trial), (wall) => isTreated(trial, wall)),
  },
  {
    ...{ name: 'event-in-one-arm', domain, codes: ['event-in-one-arm'], in: walls(), changes: ['events', masses] },
    planted: 'a leak behind three of eight untreated walls, 6 wetter for it',
    plant: leaking,
  },
  {
    ...{ name: 'air-unlike', domain, codes: ['air-unlike'], in: walls() },
    planted: 'air 25 points drier beside treated walls, which dry by 2',
    changes: ['climate.relative_humidity_pct', masses],
    plant: drierBesideTreated,
  },
  {
    ...{ name: 'air-not-recorded', domain, codes: ['air-not-recorded'], in: walls(), changes: ['climate'] },
    planted: 'no air on record',
    plant: (trial) => dropStatement(trial, 'climate'),
  },
  {
    ...{ name: 'no-sham', domain, codes: ['no-sham'], in: walls(), changes: ['protocol.arms.role'] },
    planted: 'untreated walls with nothing on them',
    plant: (trial) =>
      withProtocol(trial, {
        arms: trial.protocol.arms.map((arm) => (arm.role === 'sham' ? { ...arm, role: 'control' } : arm)),
      }),
  },
  {
    ...{ name: 'carry-over', domain, codes: ['carry-over'], in: strong, changes: ['walls.neighbours', masses] },
    planted: 'four of eight untreated walls stand beside a treated one and dry by 3.5 with it',
    plant: besideTreated,
  },
  {
    ...{ name: 'not-steady-before', domain, codes: ['not-steady-before'], in: walls({ visits: 6 }), changes: [masses] },
    planted: 'all walls fall by 4 through the before window',
    plant: (trial) => moved(trial, ({ isAfter, day }) => (isAfter ? 0 : 4 * (1 - daysBetween('2024-03-05', day) / 77))),
  },
  {
    ...{ name: 'placebo-dates', domain, codes: ['placebo-dates'], in: walls({ visits: 6 }), changes: [masses] },
    planted: 'treated walls fall by 2.5 halfway through the before window',
    plant: (trial) => moved(trial, (taken) => (taken.isTreated && taken.day >= '2024-04-10' ? -2.5 : 0)),
  },
  {
    ...{ name: 'drift-before-treatment', domain, codes: ['drift-before-treatment'], in: twoWalls() },
    planted: 'the treated wall falls against the other all along, by 4 a year',
    changes: ['readings.value.value'],
    plant: (trial) =>
      moved(trial, (taken) => (taken.isTreated ? 4 - (4 * daysBetween('2023-06-01', taken.day)) / 365 : 0)),
  },
  {
    ...{ name: 'placebo-alarms', domain, codes: ['placebo-alarms'], in: twoWalls() },
    planted: 'the treated wall fell by 2 half a year before the treatment',
    changes: ['readings.value.value'],
    plant: (trial) => moved(trial, (taken) => (taken.isTreated && taken.day >= '2023-12-01' ? -MARGIN : 0)),
  },
  {
    ...{ name: 'weather-would-do', domain, codes: ['weather-would-do'], in: twoWalls() },
    planted: 'the treated wall follows the air, the other does not, and the air of the year after is 35 points drier',
    changes: ['climate.relative_humidity_pct', 'readings.value.value'],
    // The seasons of the air leave the series of differences so autocorrelated that its interval may hold zero.
    size: 'slight',
    plant: followsTheAir,
  },
  {
    ...{ name: 'two-walls-other-months', domain, codes: ['windows-in-different-months'], in: twoWalls() },
    planted: 'two walls read from November to April before and from May to October after, the treated drier by 2',
    changes: [
      ...['protocol.windows.before.from', 'protocol.windows.before.to', 'protocol.windows.after.from'],
      ...['protocol.windows.after.to', 'readings', 'checks', 'beliefs.date', 'beliefs.readingDate'],
      ...['walls.treatedOn', 'events.date'],
    ],
    plant: (trial) => {
      const windows = {
        before: { from: '2023-11-01', to: '2024-04-30' },
        after: { from: '2024-05-01', to: '2024-10-31' },
      };
      const isIn = (day: string) => day >= windows.before.from && day <= windows.after.to;
      const half = without(trial, ({ day }) => !isIn(day));
      const last = half.readings.at(-1)?.date ?? '';
      return moved(
        withProtocol(
          treatedOn(
            {
              ...half,
              checks: (trial.checks ?? []).filter(({ date }) => isIn(date)),
              beliefs: trial.beliefs.map((belief) => ({ ...belief, date: last, readingDate: last })),
            },
            () => '2024-05-01',
          ),
          { windows },
        ),
        inTreatedAfter(-MARGIN),
      );
    },
  },
  {
    ...{ name: 'sham-against-control', domain, codes: ['sham-against-control'], changes: [masses] },
    in: walls({ arms: 'sham-and-control', effect: -2 * MARGIN }),
    planted: 'sham walls dry by 4 for other reasons, bare ones do not',
    plant: (trial) => moved(trial, ({ isAfter, wall }) => (isAfter && wall.arm === 'sham' ? -2 * MARGIN : 0)),
  },
  {
    ...{ name: 'untreated-outside', domain, codes: ['untreated-outside'], changes: [masses] },
    in: walls({ arms: 'walls-outside' }),
    planted: 'untreated walls outside the comparison dry by 3, and so do the treated ones',
    plant: (trial) => moved(trial, ({ isAfter, wall }) => (isAfter && wall.arm !== 'sham' ? -3 : 0)),
  },
  {
    ...{ name: 'out-of-reach', domain, codes: ['out-of-reach'], changes: [masses] },
    in: walls({ beside: 'station-out-of-reach' }),
    planted: 'treated walls dry by 2, even where the treatment cannot act',
    plant: (trial) => moved(trial, inTreatedAfter(-MARGIN)),
  },
  {
    ...{ name: 'walls-too-dry', domain, codes: ['walls-too-dry'], in: strong, changes: [masses] },
    planted: 'walls that hold about 2, the drier half less than the margin, and cannot lose the margin',
    plant: (trial) => moved(trial, ({ moisture }) => 0.15 * moisture - moisture),
  },
];
