import type { DryingBatchRecord, Protocol, Trial, Wall } from '../../src/trial/index.js';

/** A sound protocol, for tests that change one thing in it. */
export const soundProtocol: Protocol = {
  title: 'Made trial',
  claim: 'The treatment dries walls',
  outcome: { instrument: 'core', quantity: 'moisture content', unit: '% by mass', better: 'lower' },
  margin: 2,
  confidence: 0.95,
  arms: [
    { arm: 'treated', role: 'treated' },
    { arm: 'sham', role: 'sham' },
  ],
  instruments: [
    { instrument: 'core', kind: 'gravimetric' },
    { instrument: 'mw', kind: 'microwave' },
  ],
  windows: { before: { from: '2024-03-01', to: '2024-05-31' }, after: { from: '2025-03-01', to: '2025-05-31' } },
  allocation: { method: 'randomised', by: 'a person outside the trial' },
  blinding: { readers: true, occupants: true, analyst: true },
  disclosures: { funding: 'none', interests: 'none' },
  plannedOn: '2024-02-01',
};

export interface MadeWall extends Partial<Omit<Wall, 'origin'>> {
  readonly wall: string;
  readonly arm: string;
  readonly before?: number;
  readonly after?: number;
}

/**
 * A trial with one station a wall, read once before and once after by a blind reader. It states the whole core list, so that
 * nothing weighs against its evidence, which is firm.
 */
export function madeTrial(walls: readonly MadeWall[], changes: Partial<Trial> = {}): Trial {
  const readings = walls.flatMap(({ wall, before, after }, index) =>
    [
      { date: '2024-04-10', value: before },
      { date: '2025-04-10', value: after },
    ].flatMap(({ date, value }, visit) =>
      value === undefined
        ? []
        : [
            {
              date,
              wall,
              station: '',
              instrument: 'core',
              value: { kind: 'measured' as const, value },
              reader: 'R1',
              knewArm: 'no' as const,
              origin: { file: 'readings.csv', row: 2 + 2 * index + visit },
            },
          ],
    ),
  );
  return {
    protocol: soundProtocol,
    walls: walls.map(asWall),
    stations: [],
    readings,
    cores: [],
    batches: [soundBatch],
    climate: [],
    beliefs: [],
    events: [{ date: treatedOn, kind: 'installed', note: 'all on one day', origin: { file: 'diary.csv', row: 2 } }],
    source: { fingerprint: '0'.repeat(64), files: [] },
    ...changes,
  };
}

const treatedOn = '2024-06-10';

const soundBatch: DryingBatchRecord = {
  batch: 'B1',
  oven_c: 105,
  stopRule: 'under 0.1 % of the mass in a day',
  lastChange_pct: 0.05,
  origin: { file: 'batches.csv', row: 2 },
};

/** All under one roof, and of one kind, unless told otherwise. */
function asWall({ before: _, after: __, ...wall }: MadeWall, index: number): Wall {
  const described = { site: 'the garden', material: 'brick in lime mortar', thickness_mm: 330 };
  return { ...described, treatedOn, ...wall, origin: { file: 'walls.csv', row: index + 2 } };
}

/** Walls of two arms with given changes, all starting from about 8 with a little spread. */
export function wallsWithChanges(
  treated: readonly number[],
  untreated: readonly number[],
  untreatedArm = 'sham',
): MadeWall[] {
  const of = (arm: string, prefix: string, changes: readonly number[]) =>
    changes.map((change, index) => {
      const before = 8 + 0.25 * index;
      return { wall: `${prefix}${index + 1}`, arm, before, after: before + change };
    });
  return [...of('treated', 'T', treated), ...of(untreatedArm, 'U', untreated)];
}
