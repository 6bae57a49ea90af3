import { describe, expect, it } from 'vitest';
import { saltsOfTrial } from '../../../src/findings/salts/salts-of-trial.js';
import { type Trial, verdictOfTrial } from '../../../src/index.js';
import type { Recorded, SaltSample } from '../../../src/trial/index.js';
import { byMeter, cored, sound, walls } from '../../opinion/threats/rows/trials.js';

const measured = (value: number): Recorded => ({ kind: 'measured', value });
const missing: Recorded = { kind: 'missing' };

function sample(wall: string, date: string, chloride: Recorded, more: Partial<SaltSample> = {}): SaltSample {
  return {
    ...{ date, wall, height_mm: 300, depth_mm: 20, scheme: 'wta-2-6-99' as const },
    contents_pct: { chloride, nitrate: missing, sulfate: missing },
    origin: { file: 'salts.csv', row: 2 },
    ...more,
  };
}

const withSalts = (salts: readonly SaltSample[], trial: Trial = sound): Trial => ({ ...trial, salts });
const sides = new Map(
  walls.map(({ wall, arm }) => [wall, arm === 'treated' ? ('treated' as const) : ('untreated' as const)]),
);
const [before, after] = ['2024-04-10', '2025-04-10'];

describe('saltsOfTrial', () => {
  it('is nothing without salts', () => {
    expect(saltsOfTrial(sound, sides)).toBeUndefined();
    expect(saltsOfTrial(withSalts([]), sides)).toBeUndefined();
  });

  it('counts each place of a wall once and each wall once, by hand', () => {
    const part = saltsOfTrial(
      withSalts([
        sample('T1', before, measured(0.1)),
        sample('T1', before, measured(0.3)),
        sample('T1', before, measured(0.6), { height_mm: 900 }),
        sample('T2', before, measured(0.2)),
        sample('U1', '2024-12-01', measured(0.2)),
      ]),
      sides,
    );
    // T1: (0.2 + 0.6)/2 = 0.4; T2: 0.2.
    expect(part).toMatchObject({ samples: 4, outside: 1 });
    expect(part?.arms).toHaveLength(1);
    expect(part?.arms[0]).toMatchObject({ arm: 'treated', window: 'before', walls: 2, samples: 4 });
    expect(part?.arms[0]?.ions[0]?.lower_pct).toBeCloseTo(0.3, 12);
    // T1 by its worst sample, 0.6; T2 at the limit.
    expect(part?.arms[0]?.classes).toEqual([
      { scheme: 'wta-2-6-99', walls: { low: 0, medium: 1, high: 1, unknown: 0 }, worst: { chloride: 2 } },
    ]);
  });

  it('names a worst ion of a medium or high wall only: a low wall has none', () => {
    const part = saltsOfTrial(
      withSalts([sample('T1', before, measured(0.1)), sample('T2', before, measured(0.2))]),
      sides,
    );
    expect(part?.arms[0]?.classes).toEqual([
      { scheme: 'wta-2-6-99', walls: { low: 1, medium: 1, high: 0, unknown: 0 }, worst: { chloride: 1 } },
    ]);
  });

  it('keeps what is below detection as a range, and never says that it changed where it may not have', () => {
    const below: Recorded = { kind: 'below-detection', limit: 0.02 };
    const part = saltsOfTrial(
      withSalts([
        sample('T1', before, measured(0.1)),
        sample('T1', after, below),
        sample('U1', before, below),
        sample('U1', after, below),
      ]),
      sides,
    );
    const [treated] = part?.changes ?? [];
    expect(treated?.treated.lower_pct).toBeCloseTo(-0.1, 12);
    expect(treated?.treated.upper_pct).toBeCloseTo(-0.08, 12);
    expect([treated?.untreated.lower_pct, treated?.untreated.upper_pct]).toEqual([-0.02, 0.02]);
    expect(treated?.apart_pct).toBeCloseTo(-0.06, 12);
  });

  it('compares only places that were sampled in both windows', () => {
    const part = saltsOfTrial(
      withSalts([
        sample('T1', before, measured(0.1)),
        sample('T1', before, measured(0.9), { height_mm: 900 }),
        sample('T1', after, measured(0.2)),
        sample('U1', before, measured(0.1)),
        sample('U1', after, measured(0.1)),
      ]),
      sides,
    );
    expect(part?.changes[0]?.treated.lower_pct).toBeCloseTo(0.1, 12);
  });

  it('says which salts of the ions found dissolve where cores were conditioned, against published 75.5 % for common salt', () => {
    const batch = { oven_c: 105, stopRule: 'under 0.1 %', lastChange_pct: 0.05, humidTemperature_c: 20 };
    const at = (humidity_pct: number) => {
      const trial = cored([
        { ...batch, humidity_pct },
        { ...batch, humidity_pct },
      ]);
      const cores = trial.cores.map((core) => ({ ...core, humid_g: 101 }));
      const [own] =
        saltsOfTrial(withSalts([sample('T1', before, measured(0.4))], { ...trial, cores }), sides)?.conditioned ?? [];
      return own?.salts.find(({ salt }) => salt === 'sodium chloride')?.state;
    };
    expect([at(70), at(74), at(77), at(80)]).toEqual(['stays-dry', 'near', 'near', 'dissolves']);
  });
});

describe('salts and the evidence', () => {
  const firmest = ['firm', 'fair', 'shaky', 'none'];
  const trials: readonly (readonly [string, Trial])[] = [
    ['weighed', sound],
    ['a microwave meter', byMeter()],
    [
      'a resistance meter',
      byMeter({ instruments: [...sound.protocol.instruments.slice(0, 1), { instrument: 'mw', kind: 'resistance' }] }),
    ],
  ];
  const kinds: readonly (readonly [string, (wall: string, isAfter: boolean) => Recorded])[] = [
    ['alike', () => measured(0.3)],
    ['none', () => ({ kind: 'below-detection', limit: 0.01 })],
    ['more in treated walls', (wall) => measured(wall.startsWith('T') ? 0.8 : 0.1)],
    [
      'taken out of treated walls',
      (wall, isAfter) =>
        measured(
          0.5 + Number(wall.slice(1)) / 100 - (isAfter && wall.startsWith('T') ? 0.3 + Number(wall.slice(1)) / 90 : 0),
        ),
    ],
  ];

  it.each(trials.flatMap(([of, trial]) => kinds.map(([kind, contentOf]) => ({ of, trial, kind, contentOf }))))(
    'salts ($kind) added to a trial ($of) never make it firmer',
    ({ trial, contentOf }) => {
      const salts = trial.walls.flatMap(({ wall }) =>
        [before, after].map((date) => sample(wall, date, contentOf(wall, date === after))),
      );
      const [own, added] = [trial, withSalts(salts, trial)].map((one) =>
        firmest.indexOf(verdictOfTrial(one, 1).verdict.evidence),
      );
      expect(added).toBeGreaterThanOrEqual(own ?? 0);
    },
  );
});
