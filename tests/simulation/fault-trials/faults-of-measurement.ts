import type { Core, DryingBatchRecord, Instrument, Trial } from '../../../src/trial/index.js';
import { MARGIN } from './base.js';
import { isTreated, meansOfWalls, moved, noted, type Taken, withProtocol, withWalls } from './change-trial.js';
import { dropStatement } from './drop-statement.js';
import { type Fault, walls } from './fault.js';
import { rounded } from './own-random.js';
import { DRIEST, moistureOf } from './weighing.js';

const masses = 'cores.wet_g';
const domain = 'measurement';
const strong = walls({ effect: -2 * MARGIN });
const direct = walls({ outcome: 'direct-meter' });
const handHeld = walls({ outcome: 'hand-held-meter' });

const inTreatedAfter =
  (points: number) =>
  ({ isTreated: treated, isAfter }: Taken): number =>
    treated && isAfter ? points : 0;

function withInstrument(trial: Trial, changed: Partial<Instrument>): Trial {
  const instruments = trial.protocol.instruments.map((instrument) => ({ ...instrument, ...changed }));
  return withProtocol(trial, { instruments });
}

function withBatches(trial: Trial, changed: (batch: DryingBatchRecord, at: number) => DryingBatchRecord): Trial {
  return { ...trial, batches: (trial.batches ?? []).map(changed) };
}

/** Water left in, where there was so much: the core was heavier when taken as dry. */
function leftWet(trial: Trial, points: number, where: (core: Core) => boolean): Trial {
  const cores = trial.cores.map((core) => {
    if (!where(core)) return core;
    const { container_g, dry_g = Number.NaN } = core;
    const left = Math.min(points, moistureOf(core) - DRIEST);
    return { ...core, dry_g: rounded(dry_g + ((dry_g - container_g) * left) / 100, 2) };
  });
  return { ...trial, cores };
}

const isIn2025 = ({ date }: Core) => date >= '2025-01-01';

/** The cores of treated walls went into another oven at 60 °C after the treatment. */
function driedCooler(trial: Trial): Trial {
  const treated = new Set(trial.walls.flatMap((wall) => (isTreated(trial, wall) ? wall.wall : [])));
  const isCooler = (core: Core) => isIn2025(core) && treated.has(core.wall);
  const cooler: DryingBatchRecord = {
    ...{ batch: 'cool oven', oven_c: 60, stopRule: 'until three weighings a day apart agree to 0.1 %' },
    ...{ lastChange_pct: 0.04, origin: { file: 'batches.csv', row: 8 } },
  };
  const wetter = leftWet(trial, MARGIN, isCooler);
  return {
    ...wetter,
    batches: [...(trial.batches ?? []), cooler],
    cores: wetter.cores.map((core) => (isCooler(core) ? { ...core, batch: cooler.batch } : core)),
  };
}

/** Nobody went to the untreated walls in the last two visits: the masses are those of the spring before. */
function copied(trial: Trial): Trial {
  const treated = new Set(trial.walls.flatMap((wall) => (isTreated(trial, wall) ? wall.wall : [])));
  const key = ({ station, date }: Core) => `${station} ${date.slice(5)}`;
  const earlier = new Map(trial.cores.filter((core) => !isIn2025(core)).map((core) => [key(core), core]));
  const cores = trial.cores.map((core) => {
    const source = earlier.get(key(core));
    if (!isIn2025(core) || treated.has(core.wall) || core.date < '2025-04-01' || source === undefined) return core;
    const { container_g, wet_g, dry_g } = source;
    return {
      ...core,
      container_g,
      ...(wet_g === undefined ? {} : { wet_g }),
      ...(dry_g === undefined ? {} : { dry_g }),
    };
  });
  return { ...trial, cores };
}

function withMasses(trial: Trial, written: (mass: number) => number): Trial {
  const cores = trial.cores.map((core) => ({
    ...core,
    container_g: written(core.container_g),
    ...(core.wet_g === undefined ? {} : { wet_g: written(core.wet_g) }),
    ...(core.dry_g === undefined ? {} : { dry_g: written(core.dry_g) }),
  }));
  return { ...trial, cores };
}

/** Digits as people make them up: 3 and 7 often, 0 and 5 seldom (of 100). */
const inventedDigits = [3, 10, 12, 18, 9, 4, 10, 19, 10, 5];

function inventedDigit(uniform: number): number {
  let passed = 0;
  const found = inventedDigits.findIndex((share) => {
    passed += share / 100;
    return uniform < passed;
  });
  return found < 0 ? 9 : found;
}

/** The readings of the treated walls were written at a desk: hardly anything sets one wall apart from another. */
function tooAlike(trial: Trial): Trial {
  const [before, after] = [meansOfWalls(trial, 'before'), meansOfWalls(trial, 'after')];
  const treated = trial.walls.filter((wall) => isTreated(trial, wall)).map(({ wall }) => wall);
  const meanOf = (means: ReadonlyMap<string, number>) =>
    treated.reduce((sum, wall) => sum + (means.get(wall) ?? 0), 0) / treated.length;
  const middles = { before: meanOf(before), after: meanOf(after) };
  return moved(trial, ({ isTreated: isMade, isAfter, wall }) => {
    if (!isMade) return 0;
    const [means, middle] = isAfter ? [after, middles.after] : [before, middles.before];
    return 0.95 * (middle - (means.get(wall.wall) ?? middle));
  });
}

/** More than the water that air at 99 % can take from two faces. */
function fallsInDampAir(trial: Trial): Trial {
  const damp = trial.climate.map((row) => ({ ...row, relative_humidity_pct: 99.7 }));
  return moved({ ...trial, climate: damp }, inTreatedAfter(-6));
}

/** The sensors of the treated walls creep down by two in the year. */
function creeping(trial: Trial): Trial {
  const treated = new Set(trial.walls.flatMap((wall) => (isTreated(trial, wall) ? wall.wall : [])));
  const { sensorLog } = trial;
  if (sensorLog === undefined) throw new Error('the sound trial has a log');
  const isCreeping = (sensor: string) => treated.has(sensor.slice(2, 5));
  const sensors = sensorLog.sensors.map((sensor) => {
    if (!isCreeping(sensor.sensor)) return sensor;
    const days = sensor.days.map((day) => ({
      ...day,
      mean: rounded(Math.max(0.3, day.mean + (day.day >= '2025-01-01' ? -MARGIN : 0)), 2),
    }));
    return { ...sensor, days, drift: { perDay: -0.0055, standardError: 0.0003, drifts: true } };
  });
  return { ...moved(trial, inTreatedAfter(-MARGIN)), sensorLog: { ...sensorLog, sensors } };
}

const byArm = (treated: string, untreated: string) => (taken: Taken) => ({
  reader: taken.isTreated ? treated : untreated,
});

export const faultsOfMeasurement: readonly Fault[] = [
  {
    ...{ name: 'readers-knew', domain, codes: ['readers-knew'], in: walls(), changes: ['cores.knewArm', masses] },
    planted: 'all readers knew the arm after the treatment, and found 2 less in treated walls',
    plant: (trial) =>
      noted(moved(trial, inTreatedAfter(-MARGIN)), ({ isAfter }) => (isAfter ? { knewArm: 'yes' } : {})),
  },
  {
    ...{ name: 'not-blind-by-plan', domain, codes: ['readers-knew'], in: walls() },
    planted: 'nobody was kept from knowing, and readers found 2 less in treated walls',
    changes: ['protocol.blinding.readers', 'cores.knewArm', masses],
    plant: (trial) =>
      withProtocol(
        noted(moved(trial, inTreatedAfter(-MARGIN)), () => ({ knewArm: 'yes' })),
        { blinding: { ...trial.protocol.blinding, readers: false } },
      ),
  },
  {
    ...{ name: 'blinding-not-recorded', domain, codes: ['blinding-not-recorded'], in: walls() },
    planted: 'what readers knew is not noted, and they found 2 less in treated walls',
    changes: ['cores.knewArm', masses],
    plant: (trial) => dropStatement(moved(trial, inTreatedAfter(-MARGIN)), 'knew arm'),
  },
  {
    ...{ name: 'knew-unsure', domain, codes: ['knew-unsure'], in: walls(), changes: ['cores.knewArm', masses] },
    planted: 'all readers noted `unsure`, and found 2 less in treated walls',
    plant: (trial) => noted(moved(trial, inTreatedAfter(-MARGIN)), () => ({ knewArm: 'unsure' })),
  },
  {
    ...{ name: 'unblinded-during-trial', domain, codes: ['unblinded-during-trial'], in: walls() },
    planted: 'the list of arms was seen before the after readings, which found 2 less in treated walls',
    changes: ['events', masses],
    plant: (trial) => {
      const seen = { date: '2025-02-10', kind: 'unblinded', note: 'the list of arms lay open' } as const;
      const events = [...trial.events, { ...seen, origin: { file: 'diary.csv', row: 4 } }];
      return moved({ ...trial, events }, inTreatedAfter(-MARGIN));
    },
  },
  {
    ...{ name: 'arms-guessed', domain, codes: ['arms-guessed'], in: walls() },
    planted: 'every reader guessed every arm, and found 2 less in treated walls',
    changes: ['beliefs.believedArm', masses],
    plant: (trial) => {
      const armOf = new Map(trial.walls.map(({ wall, arm }) => [wall, arm]));
      const beliefs = trial.beliefs.map((belief) => ({ ...belief, believedArm: armOf.get(belief.wall) ?? '' }));
      return moved({ ...trial, beliefs }, inTreatedAfter(-MARGIN));
    },
  },
  {
    ...{ name: 'knowing-read-differently', domain, codes: ['knowing-read-differently', 'readers-knew'] },
    in: walls({ outcome: 'direct-meter', beside: 'second-reader' }),
    planted: 'of two readers at every station one knew, and found 4 less in treated walls after the treatment',
    changes: ['readings.knewArm', 'readings.value.value'],
    plant: (trial) =>
      noted(
        moved(trial, (taken) => (taken.reader === 'R1' ? inTreatedAfter(-2 * MARGIN)(taken) : 0)),
        ({ reader, isAfter }) => (reader === 'R1' && isAfter ? { knewArm: 'yes' } : {}),
      ),
  },
  {
    ...{ name: 'readers-differ-by-arm', domain, codes: ['readers-differ-by-arm'], in: walls() },
    planted: 'one reader for treated walls, who came to find 2 less, another for untreated',
    changes: ['cores.reader', masses],
    plant: (trial) => noted(moved(trial, inTreatedAfter(-MARGIN)), byArm('R1', 'R2')),
  },
  {
    ...{ name: 'readers-changed', domain, codes: ['readers-changed'], in: walls() },
    planted: 'treated walls read by somebody else after the treatment, who finds 2 less',
    changes: ['cores.reader', masses],
    plant: (trial) =>
      noted(moved(trial, inTreatedAfter(-MARGIN)), (taken) =>
        taken.isTreated && taken.isAfter ? { reader: 'R3' } : {},
      ),
  },
  {
    ...{ name: 'only-one-reader', domain, codes: ['only-one-reader'], in: handHeld },
    planted: 'a hand-held meter in one hand, noted as blind',
    changes: ['readings.reader'],
    plant: (trial) => noted(trial, () => ({ reader: 'R1' })),
  },
  {
    ...{ name: 'one-knowing-reader', domain, codes: ['readers-knew'], in: handHeld },
    planted: 'a hand-held meter in one hand that knew, and found 2 less in treated walls',
    changes: ['readings.reader', 'readings.knewArm', 'readings.value.value'],
    plant: (trial) => noted(moved(trial, inTreatedAfter(-MARGIN)), () => ({ reader: 'R1', knewArm: 'yes' })),
  },
  {
    ...{
      name: 'reader-not-recorded',
      domain,
      codes: ['reader-not-recorded', 'blinding-not-recorded'],
      in: walls(),
      changes: ['cores.reader'],
    },
    planted: 'no core says who drilled it',
    plant: (trial) => dropStatement(trial, 'reader'),
  },
  {
    ...{ name: 'weighed-and-held', domain, codes: ['weighed-and-held'], changes: ['readings.value.value'] },
    in: walls({ beside: 'hand-held-meter' }),
    planted: 'a hand-held meter shows a fall of 20 in treated walls, weighed cores none',
    plant: (trial) => {
      const treated = new Set(trial.walls.flatMap((wall) => (isTreated(trial, wall) ? wall.wall : [])));
      const readings = trial.readings.map((reading) => {
        const { wall, date, value } = reading;
        if (value.kind !== 'measured' || date < '2025-01-01' || !treated.has(wall)) return reading;
        return { ...reading, value: { ...value, value: rounded(value.value - 20, 1) } };
      });
      return { ...trial, readings };
    },
  },
  {
    ...{ name: 'outcome-is-an-index', domain, codes: ['outcome-is-an-index'], in: direct },
    planted: 'the meter is an uncalibrated microwave meter',
    changes: ['protocol.instruments.kind'],
    plant: (trial) => withInstrument(trial, { kind: 'microwave' }),
  },
  {
    ...{ name: 'oven-not-stated', domain, codes: ['oven-not-stated'], in: walls(), changes: ['batches'] },
    planted: 'neither the oven nor constant mass on record',
    plant: (trial) => dropStatement(trial, 'oven batches'),
  },
  {
    ...{ name: 'oven-too-hot-for-gypsum', domain, codes: ['oven-too-hot-for-gypsum'], in: walls() },
    planted: '“Gipsputz auf Ziegel” at 105 °C',
    changes: ['walls.material'],
    plant: (trial) => withWalls(trial, (wall) => ({ ...wall, material: 'Gipsputz auf Ziegel' })),
  },
  {
    ...{ name: 'dried-unlike', domain, codes: ['dried-unlike'], in: walls() },
    planted: 'treated walls’ cores dried at 60 °C after the treatment, with 2 left in',
    changes: ['batches', 'cores.batch', 'cores.dry_g'],
    plant: driedCooler,
  },
  {
    ...{ name: 'not-dried-to-constant-mass', domain, codes: ['not-dried-to-constant-mass'], in: walls() },
    planted: 'all cores after the treatment taken as dry while still losing 1 %, with 2 left in',
    changes: ['batches.lastChange_pct', 'cores.dry_g'],
    plant: (trial) =>
      withBatches(leftWet(trial, MARGIN, isIn2025), (batch, at) => (at < 3 ? batch : { ...batch, lastChange_pct: 1 })),
  },
  {
    ...{ name: 'conditioned-near-salt', domain, codes: ['conditioned-near-salt'] },
    in: walls({ beside: 'humid-masses' }),
    planted: 'cores weighed humid at 75 %, where common salt dissolves',
    changes: ['batches.humidity_pct'],
    plant: (trial) => withBatches(trial, (batch) => ({ ...batch, humidity_pct: 75 })),
  },
  {
    ...{ name: 'impedance-low', domain, codes: ['impedance-low'], in: walls({ outcome: 'potential' }) },
    planted: 'a voltmeter of 0.01 MΩ',
    changes: ['protocol.instruments.impedance_mohm'],
    plant: (trial) => withInstrument(trial, { impedance_mohm: 0.01 }),
  },
  {
    ...{ name: 'instrument-changed', domain, codes: ['instrument-changed'], in: direct },
    planted: 'another meter of the same make after the treatment, which shows 2 less',
    changes: ['events', 'checks.value.value', 'readings.value.value'],
    plant: (trial) => {
      const changed = {
        date: '2025-01-15',
        kind: 'instrument-changed',
        note: 'the meter fell and was replaced',
      } as const;
      const events = [...trial.events, { ...changed, origin: { file: 'diary.csv', row: 4 } }];
      return moved({ ...withChecksLower(trial), events }, ({ isAfter }) => (isAfter ? -MARGIN : 0));
    },
  },
  {
    ...{ name: 'meter-not-checked', domain, codes: ['meter-not-checked'], in: direct, changes: ['checks'] },
    planted: 'no reading on a block',
    plant: (trial) => dropStatement(trial, 'meter checks'),
  },
  {
    ...{ name: 'checks-drift', domain, codes: ['checks-drift'], in: direct },
    planted: 'the meter shows 2 less on its block, and on all walls, after the treatment',
    changes: ['checks.value.value', 'readings.value.value'],
    plant: (trial) => moved(withChecksLower(trial), ({ isAfter }) => (isAfter ? -MARGIN : 0)),
  },
  {
    ...{ name: 'sensors-drift', domain, codes: ['sensors-drift'], in: walls({ outcome: 'embedded-sensors' }) },
    planted: 'the sensors of treated walls creep down by 2 in the year',
    changes: [
      ...['readings.value.value', 'sensorLog.sensors.days.mean', 'sensorLog.sensors.drift.drifts'],
      ...['sensorLog.sensors.drift.perDay', 'sensorLog.sensors.drift.standardError'],
    ],
    plant: creeping,
  },
  {
    ...{ name: 'larger-than-ceiling', domain, codes: ['larger-than-ceiling'], in: walls() },
    planted: 'treated walls fall by 6 in air of 99.7 %',
    changes: ['climate.relative_humidity_pct', masses],
    plant: fallsInDampAir,
  },
  {
    ...{ name: 'numbers-copied', domain, codes: ['numbers-copied'], in: strong },
    planted: 'two after visits to untreated walls copied from the spring before',
    changes: ['cores.container_g', masses, 'cores.dry_g'],
    plant: copied,
  },
  {
    ...{ name: 'masses-rounded', domain, codes: ['last-digits-uneven'], in: walls() },
    planted: 'all masses rounded to 0.05 g and written with two decimals',
    changes: ['cores.container_g', masses, 'cores.dry_g'],
    plant: (trial) => withMasses(trial, (mass) => rounded(Math.round(mass * 20) / 20, 2)),
  },
  {
    ...{ name: 'digits-invented', domain, codes: ['last-digits-uneven'], in: walls() },
    planted: 'last digits of all masses as people make them up',
    changes: ['cores.container_g', masses, 'cores.dry_g'],
    plant: (trial, { uniform }) =>
      withMasses(trial, (mass) => rounded(Math.floor(mass * 10) / 10 + inventedDigit(uniform()) / 100, 2)),
  },
  {
    ...{ name: 'spread-too-small', domain, codes: ['spread-too-small'], in: strong, changes: [masses] },
    planted: 'treated walls twenty times as much alike as untreated ones',
    plant: tooAlike,
  },
];

function withChecksLower(trial: Trial): Trial {
  const checks = (trial.checks ?? []).map((check) =>
    check.date < '2025-01-01' || check.value.kind !== 'measured'
      ? check
      : { ...check, value: { ...check.value, value: rounded(check.value.value - MARGIN, 2) } },
  );
  return { ...trial, checks };
}
