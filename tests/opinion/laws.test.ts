import { describe, expect, it } from 'vitest';
import { type Protocol, type Reading, type Trial, type TrialVerdict, verdictOfTrial } from '../../src/index.js';
import { addDays } from '../../src/plain/days.js';
import { normalDraws, randomStream, uniform } from '../../src/statistics/index.js';
import { bundledTrial, bundledTrials } from '../helpers/bundled-opinions.js';
import { madeTrial, soundProtocol, wallsWithChanges } from '../helpers/made-trial.js';
import { isWholeSweep, ofSweep, swept } from '../helpers/sweep.js';
import { plant, faults as plantedFaults, soundSeries, soundTrial, soundTrialFor } from '../simulation/fault-trials.js';
import { cored } from './threats/rows/trials.js';

/**
 * The two laws of the evidence on whole trials: a statement that is taken away never makes it firmer, and a fault that is stated
 * never does. The one exception is a fatal fault, which nobody presumes of a folder that is silent.
 */

type Change = readonly [name: string, change: (trial: Trial) => Trial];

function without<T extends object>(record: T, ...keys: readonly (keyof T)[]): T {
  return Object.fromEntries(Object.entries(record).filter(([key]) => !keys.includes(key as keyof T))) as T;
}

function plan(trial: Trial, changes: Partial<Protocol>): Trial {
  return { ...trial, protocol: { ...trial.protocol, ...changes } };
}

const silences: readonly Change[] = [
  ['allocation.by', (trial) => plan(trial, { allocation: { ...trial.protocol.allocation, by: '' } })],
  ['plannedOn', (trial) => ({ ...trial, protocol: without(trial.protocol, 'plannedOn') })],
  ['treatedOn', (trial) => ({ ...trial, walls: trial.walls.map((wall) => without(wall, 'treatedOn')) })],
  [
    'reader and knewArm',
    (trial) => ({
      ...trial,
      readings: trial.readings.map((one) => without(one, 'reader', 'knewArm')),
      cores: trial.cores.map((one) => without(one, 'reader', 'knewArm')),
    }),
  ],
  ['batches and checks', (trial) => ({ ...without(trial, 'checks'), batches: [] })],
  ['climate and site', (trial) => ({ ...trial, climate: [], walls: trial.walls.map((wall) => without(wall, 'site')) })],
  ['site', (trial) => ({ ...trial, walls: trial.walls.map((wall) => without(wall, 'site')) })],
  ['material', (trial) => ({ ...trial, walls: trial.walls.map((wall) => without(wall, 'material')) })],
  ['thickness', (trial) => ({ ...trial, walls: trial.walls.map((wall) => without(wall, 'thickness_mm')) })],
  ['funding', (trial) => plan(trial, { disclosures: { ...trial.protocol.disclosures, funding: '' } })],
  ['lock.json', (trial) => without(trial, 'lock')],
  ['interests', (trial) => plan(trial, { disclosures: { ...trial.protocol.disclosures, interests: '' } })],
];

function treatedWalls({ protocol, walls }: Trial): readonly string[] {
  const arms = new Set(protocol.arms.flatMap(({ arm, role }) => (role === 'treated' ? [arm] : [])));
  return walls.flatMap(({ wall, arm }) => (arms.has(arm) ? [wall] : []));
}

function withEvent(trial: Trial, event: Omit<Trial['events'][number], 'origin' | 'note'>): Trial {
  return { ...trial, events: [...trial.events, { ...event, note: '', origin: { file: 'diary.csv', row: 99 } }] };
}

function middleOf(trial: Trial): string {
  return trial.protocol.windows?.after.from ?? '2024-08-01';
}

function madeOf(trial: Trial, material: (wall: string, now: string) => string): Trial {
  if (trial.walls.some((wall) => wall.material === undefined)) return trial;
  return {
    ...trial,
    walls: trial.walls.map((wall) => ({ ...wall, material: material(wall.wall, wall.material ?? '') })),
  };
}

type Taken = Pick<Reading, 'date' | 'wall' | 'station'>;

const placeOf = ({ wall, station }: Pick<Taken, 'wall' | 'station'>) => JSON.stringify([wall, station]);
const earlier = (one: string, other: string) => (one < other ? one : other);

/** Readings and cores of treated walls noted otherwise. */
function ofTreated(trial: Trial, change: <T extends Taken>(one: T) => T): Trial {
  const treated = new Set(treatedWalls(trial));
  const changed = <T extends Taken>(one: T) => (treated.has(one.wall) ? change(one) : one);
  return { ...trial, readings: trial.readings.map(changed), cores: trial.cores.map(changed) };
}

/** Treated walls on other days, where every one has its day. */
function treatedOn(trial: Trial, dayOf: (wall: string, day: string) => string | undefined): Trial {
  const treated = new Set(treatedWalls(trial));
  if (trial.walls.some(({ wall, treatedOn }) => treated.has(wall) && treatedOn === undefined)) return trial;
  const walls = trial.walls.map((wall) => {
    const day = treated.has(wall.wall) ? dayOf(wall.wall, wall.treatedOn ?? '') : undefined;
    return day === undefined ? wall : { ...wall, treatedOn: day };
  });
  return { ...trial, walls };
}

/** The last day on which a wall was read before; nothing where there is no earlier one, for the wall would be lost. */
function lastDayBefore({ readings, cores, protocol }: Trial, wall: string): string | undefined {
  const to = protocol.windows?.before.to ?? '';
  const days = [...readings, ...cores].flatMap((one) => (one.wall === wall && one.date <= to ? [one.date] : []));
  const [last, ...others] = [...new Set(days)].sort().toReversed();
  return others.length === 0 ? undefined : last;
}

/** Each planted where the folder has spoken of the matter: to state a fault is better than to be silent on it. */
const faults: readonly Change[] = [
  ['a margin other than sealed', (trial) => (trial.lock === undefined ? trial : plan(trial, { margin: 1.7 }))],
  [
    'a wall that was sealed in another arm, and a late seal',
    ({ lock, ...trial }) => {
      if (lock === undefined) return trial;
      const [first, ...others] = lock.walls;
      const arms = trial.protocol.arms.map(({ arm }) => arm);
      const moved = first === undefined ? [] : [{ ...first, arm: arms.find((arm) => arm !== first.arm) ?? first.arm }];
      return { ...trial, lock: { ...lock, lockedOn: '2024-12-01', walls: [...moved, ...others] } };
    },
  ],
  [
    'every after reading by somebody who knew',
    (trial) => {
      if ([...trial.readings, ...trial.cores].some(({ knewArm }) => knewArm === undefined)) return trial;
      const from = trial.protocol.windows?.after.from ?? '';
      const knowing = <T extends { readonly date: string }>(one: T) =>
        one.date >= from ? { ...one, knewArm: 'yes' as const } : one;
      return { ...trial, readings: trial.readings.map(knowing), cores: trial.cores.map(knowing) };
    },
  ],
  ['readers not kept blind', (trial) => plan(trial, { blinding: { ...trial.protocol.blinding, readers: false } })],
  [
    'walls chosen',
    (trial) => plan(trial, { allocation: { ...without(trial.protocol.allocation, 'seed'), method: 'chosen' } }),
  ],
  ['walls picked for being wet', (trial) => plan(trial, { selection: 'wettest' })],
  [
    'a leak at a treated wall',
    (trial) => {
      const [wall] = treatedWalls(trial);
      return wall === undefined ? trial : withEvent(trial, { date: middleOf(trial), kind: 'leak', wall });
    },
  ],
  ['an arm that became known', (trial) => withEvent(trial, { date: middleOf(trial), kind: 'unblinded' })],
  ['another instrument', (trial) => withEvent(trial, { date: middleOf(trial), kind: 'instrument-changed' })],
  [
    'a late plan',
    (trial) =>
      trial.protocol.plannedOn === undefined
        ? trial
        : plan(trial, { plannedOn: trial.protocol.windows?.after.to ?? '2099-01-01' }),
  ],
  [
    'a seller who pays',
    (trial) => {
      const { disclosures } = trial.protocol;
      if (disclosures.funding === '') return trial;
      return plan(trial, { disclosures: { ...disclosures, funding: 'the manufacturer of the device' } });
    },
  ],
  [
    'an oven for each arm',
    (trial) => {
      const treated = new Set(treatedWalls(trial));
      const batch = (batch: string, oven_c: number) => ({
        ...{ batch, oven_c, stopRule: 'under 0.1 % in a day', lastChange_pct: 0.05 },
        origin: { file: 'batches.csv', row: 2 },
      });
      if (trial.cores.length === 0 || (trial.batches ?? []).length === 0) return trial;
      const cores = trial.cores.map((core) => ({ ...core, batch: treated.has(core.wall) ? 'hot' : 'cool' }));
      return { ...trial, cores, batches: [batch('hot', 105), batch('cool', 70)] };
    },
  ],
  ['gypsum in a hot oven', (trial) => madeOf(trial, (_, now) => `${now}, gypsum plaster`)],
  [
    'treated walls of another material',
    (trial) => {
      const treated = new Set(treatedWalls(trial));
      return madeOf(trial, (wall) => (treated.has(wall) ? 'tuff' : 'granite'));
    },
  ],
  [
    'several treated arms',
    (trial) => {
      const treated = treatedWalls(trial);
      const other = new Set(treated.slice(Math.ceil(treated.length / 2)));
      if (other.size === 0 || trial.protocol.compare !== undefined) return trial;
      const walls = trial.walls.map((wall) => (other.has(wall.wall) ? { ...wall, arm: 'further' } : wall));
      return plan({ ...trial, walls }, { arms: [...trial.protocol.arms, { arm: 'further', role: 'treated' }] });
    },
  ],
  [
    'treated walls lost',
    (trial) => {
      const gone = treatedWalls(trial)[0];
      const from = trial.protocol.windows?.after.from ?? '';
      const isKept = (one: { readonly date: string; readonly wall: string }) => one.wall !== gone || one.date < from;
      return { ...trial, readings: trial.readings.filter(isKept), cores: trial.cores.filter(isKept) };
    },
  ],
  ['readings after the treatment of their wall', (trial) => treatedOn(trial, (wall) => lastDayBefore(trial, wall))],
  [
    'treatment days spread',
    (trial) => {
      const late = new Set(treatedWalls(trial).filter((_, at) => at % 2 === 1));
      const from = trial.protocol.windows?.after.from;
      if (from === undefined) return trial;
      return treatedOn(trial, (wall, day) => (late.has(wall) ? earlier(addDays(day, 200), addDays(from, -1)) : day));
    },
  ],
  [
    'arms read on different days',
    (trial) => {
      const { windows } = trial.protocol;
      // A log is read on every day.
      if (windows === undefined || trial.sensorLog !== undefined) return trial;
      const { from, to } = windows.after;
      return ofTreated(trial, (one) =>
        one.date < from || one.date > to ? one : { ...one, date: earlier(addDays(one.date, 30), to) },
      );
    },
  ],
  [
    'drier air beside treated walls',
    (trial) => {
      const treated = new Set(treatedWalls(trial));
      const sitesOf = (isTreated: boolean) =>
        new Set(trial.walls.flatMap(({ wall, site }) => (treated.has(wall) === isTreated && site ? [site] : [])));
      const [own, others] = [sitesOf(true), sitesOf(false)];
      const from = trial.protocol.windows?.after.from ?? '';
      const isMeant = ({ place, time }: Trial['climate'][number]) =>
        own.has(place) && !others.has(place) && time >= from;
      if (!trial.climate.some(isMeant)) return trial;
      const drier = (one: Trial['climate'][number]) =>
        isMeant(one) && one.relative_humidity_pct !== undefined
          ? { ...one, relative_humidity_pct: one.relative_humidity_pct / 2 }
          : one;
      return { ...trial, climate: trial.climate.map(drier) };
    },
  ],
  [
    'stations of one height lost in treated walls',
    (trial) => {
      const from = trial.protocol.windows?.after.from ?? '';
      const heights = new Set(trial.stations.flatMap(({ height_mm }) => height_mm ?? []));
      if (heights.size < 2 || trial.sensorLog !== undefined) return trial;
      const top = Math.max(...heights);
      const gone = new Set(
        trial.stations.flatMap(({ wall, station, height_mm }) => (height_mm === top ? placeOf({ wall, station }) : [])),
      );
      const treated = new Set(treatedWalls(trial));
      const isKept = (one: Taken) => one.date < from || !treated.has(one.wall) || !gone.has(placeOf(one));
      return { ...trial, readings: trial.readings.filter(isKept), cores: trial.cores.filter(isKept) };
    },
  ],
  [
    'stations named anew in treated walls',
    (trial) => {
      const from = trial.protocol.windows?.after.from ?? '';
      if (trial.sensorLog !== undefined) return trial;
      const stations = trial.stations.flatMap((one) => [one, { ...one, station: `${one.station}b` }]);
      return ofTreated({ ...trial, stations }, (one) =>
        one.date < from ? one : { ...one, station: `${one.station}b` },
      );
    },
  ],
  [
    'copied cores',
    (trial) => {
      const { windows } = trial.protocol;
      // Among fewer cores copies do not stand out.
      if (windows === undefined || trial.cores.length < 100) return trial;
      const treated = new Set(treatedWalls(trial));
      const before = new Map(
        trial.cores.flatMap((core) => (core.date <= windows.before.to ? [[placeOf(core), core] as const] : [])),
      );
      const cores = trial.cores.map((core) => {
        const source = treated.has(core.wall) || core.date < windows.after.from ? undefined : before.get(placeOf(core));
        if (source?.wet_g === undefined || source.dry_g === undefined) return core;
        return { ...core, container_g: source.container_g, wet_g: source.wet_g, dry_g: source.dry_g };
      });
      return { ...trial, cores };
    },
  ],
  [
    'a meter that loads the wall',
    (trial) =>
      plan(trial, {
        instruments: trial.protocol.instruments.map((one) =>
          one.kind === 'potential' ? { ...one, impedance_mohm: 1 } : one,
        ),
      }),
  ],
];

const firmestFirst = ['firm', 'fair', 'shaky', 'none'];

const known = new WeakMap<Trial, TrialVerdict>();

/** The verdict on a trial before it is changed, which both laws ask for. */
function verdictBefore(trial: Trial): TrialVerdict {
  const verdict = known.get(trial) ?? verdictOfTrial(trial, 1);
  known.set(trial, verdict);
  return verdict;
}

/** The changes that were made to a trial whose evidence could become firmer. */
const tried = new Set<string>();

/** A trial that says nothing of interests where it says everything: what is firm cannot become firmer. */
function lessThanFirm(trial: Trial): Trial {
  if (verdictBefore(trial).verdict.evidence !== 'firm') return trial;
  return plan(trial, { disclosures: { ...trial.protocol.disclosures, interests: '' } });
}

/** What became firmer, with what was weighed before and after. */
function violations(trial: Trial, changes: readonly Change[], name: string): readonly string[] {
  const before = verdictBefore(trial);
  // Nothing is firmer than firm.
  if (before.verdict.evidence === 'firm') return [];
  // What is fatal may be hidden by silence, which is the stated exception; a fault that is stated may hide nothing.
  if (before.verdict.evidence === 'none' && changes.every((change) => silences.includes(change))) return [];
  return changes.flatMap(([what, change]) => {
    const changed = change(trial);
    if (changed === trial) return [];
    tried.add(what);
    const after = verdictOfTrial(changed, 1);
    const [own, other] = [before, after].map(({ verdict }) => firmestFirst.indexOf(verdict.evidence)) as [
      number,
      number,
    ];
    if (other >= own) return [];
    return [
      `${name}, ${what}: ${before.verdict.evidence} to ${after.verdict.evidence}; ${weighed(before)} / ${weighed(after)}`,
    ];
  });
}

function weighed({ verdict }: TrialVerdict): string {
  return verdict.weaknesses.map(({ code, seriousness }) => `${code} (${seriousness})`).join(', ');
}

/** With its plan sealed as it is, before the first reading. */
function locked(trial: Trial): Trial {
  const { protocol } = trial;
  const walls = trial.walls.map(({ wall, arm, block, site }) => ({
    ...{ wall, arm },
    ...(block === undefined ? {} : { block }),
    ...(site === undefined ? {} : { site }),
  }));
  return { ...trial, lock: { lockedOn: '2024-02-01', version: '1.0.0', protocol, walls, sha256: '0'.repeat(64) } };
}

/** Two to seven walls an arm, some effect or none, as readings or as cores, with some faults and some silence of its own. */
function variant(seed: number): Trial {
  const stream = randomStream(seed);
  const pick = <T>(list: readonly T[]): T => list[Math.floor(uniform(stream) * list.length)] as T;
  const count = pick([2, 3, 4, 5, 6, 7]);
  const [shift, scatter] = [pick([0, -1, -2.2, -4]), pick([0.3, 0.8, 1.5])];
  const changes = (by: number) => [...normalDraws(stream, count)].map((one) => by + scatter * one);
  const walls = wallsWithChanges(changes(shift), changes(0)).map((wall, at) =>
    count > 3 && seed % 3 === 0 ? { ...wall, block: `P${at % count}` } : wall,
  );
  const read = madeTrial(walls, { protocol: { ...soundProtocol } });
  const full = { oven_c: 105, stopRule: 'under 0.1 % in a day', lastChange_pct: 0.05 };
  const made = seed % 2 === 0 ? read : cored([full, full], { trial: read });
  const sealed = seed % 5 < 2 ? locked(made) : made;
  const spoilt = [...faults, ...silences].filter(() => uniform(stream) < 0.12);
  return spoilt.reduce((trial, [, change]) => change(trial), sealed);
}

/** One change in so many of each trial, others with each seed, so that all are tried many times; all of them where sweeps are whole. */
function some(list: readonly Change[], seed: number, inSoMany = 4): readonly Change[] {
  return swept(list, (_, at) => at % inSoMany === seed % inSoMany);
}

describe('the laws of the evidence on made trials', () => {
  const variants = Array.from({ length: ofSweep(100, 8) }, (_, seed) => variant(seed));

  it('a statement taken away never makes it firmer', { timeout: 600_000 }, () => {
    expect(variants.flatMap((trial, seed) => violations(trial, some(silences, seed), `seed ${seed}`))).toEqual([]);
  });

  it('a fault stated never makes it firmer', { timeout: 600_000 }, () => {
    expect(variants.flatMap((trial, seed) => violations(trial, some(faults, seed), `seed ${seed}`))).toEqual([]);
  });
});

describe('the laws of the evidence on trials with a fault each', () => {
  const seed = 11;
  const sound: readonly (readonly [name: string, of: Trial])[] = [
    ['cores', soundTrial(seed)],
    ['cores in pairs, with an effect', soundTrial(seed, { design: 'pairs', effect: -4 })],
    ['a meter', soundTrial(seed, { outcome: 'direct-meter' })],
    ['two walls', soundSeries(seed)],
    ['cores, with the plan sealed', locked(soundTrial(seed))],
  ];

  it.each(sound.map(([name, of], at) => [name, of, at] as const))(
    'holds for statements and faults: sound trial of %s',
    { timeout: 600_000 },
    (name, of, at) => {
      const silent = lessThanFirm(of);
      expect(violations(silent, some(silences, at, 4), name)).toEqual([]);
      expect(violations(silent, some(faults, at, 4), name)).toEqual([]);
    },
  );

  it('a statement taken away never makes it firmer', { timeout: 600_000 }, () => {
    const found = swept(plantedFaults, (_, at) => at % 16 === 0).flatMap((fault, at) => {
      const trial = plant(fault, soundTrialFor(fault, seed), seed);
      return violations(trial, some(silences, at, silences.length), fault.name);
    });
    expect(found).toEqual([]);
  });
});

describe.runIf(isWholeSweep).each(bundledTrials)('the laws of the evidence on %s', (name) => {
  it('holds for statements and faults', { timeout: 600_000 }, async () => {
    const trial = lessThanFirm(await bundledTrial(name));
    // Each by itself: what is fatal may be hidden by silence, not by a fault.
    for (const change of [...silences, ...faults]) expect(violations(trial, [change], name)).toEqual([]);
  });
});

it.runIf(isWholeSweep)('every change was made to a trial whose evidence could become firmer', () => {
  expect([...silences, ...faults].map(([what]) => what).filter((what) => !tried.has(what))).toEqual([]);
});
