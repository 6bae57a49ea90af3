import { describe, expect, it } from 'vitest';
import { chargeLedger } from '../../../src/findings/electrical/charge-ledger.js';
import { electricalOfTrial } from '../../../src/findings/electrical/electrical-of-trial.js';
import type { ElectricalRecord, Trial } from '../../../src/trial/index.js';
import { madeTrial, wallsWithChanges } from '../../helpers/made-trial.js';

const made = madeTrial(wallsWithChanges([-4, -3.8], [0, 0.2]));
const sides = new Map(made.walls.map(({ wall }) => [wall, wall.startsWith('T') ? 'treated' : 'untreated'] as const));
const [T = '', U = ''] = [made.walls.find(({ wall }) => wall.startsWith('T'))?.wall, made.walls.at(-1)?.wall];

type Given = Partial<ElectricalRecord> & { readonly time: string };
const trialWith = (rows: readonly Given[], changes: Partial<Trial['protocol']> = {}): Trial => ({
  ...made,
  protocol: { ...made.protocol, ...changes },
  electrical: rows.map((row) => ({ wall: T, state: 'on', origin: { file: 'electrical.csv', row: 2 }, ...row })),
});
const only = (rows: readonly Given[], changes: Partial<Trial['protocol']> = {}) => {
  const [wall] = electricalOfTrial(trialWith(rows, changes), sides) ?? [];
  if (wall === undefined) throw new Error('no wall');
  return wall;
};

describe('electricalOfTrial', () => {
  it('is absent without the file, and leaves out walls without a row', () => {
    expect(electricalOfTrial(made, sides)).toBeUndefined();
    expect(electricalOfTrial(trialWith([{ time: '2024-07-01', current_a: 1 }]), sides)).toHaveLength(1);
  });

  it('integrates the current by trapezoid over the time on, and not over an interruption, by hand', () => {
    const wall = only([
      { time: '2024-07-01T00:00', voltage_v: 10, current_a: 0.1 },
      { time: '2024-07-01T01:00', voltage_v: 10, current_a: 0.05 },
      // Off after another hour at 0.05 A, for two hours.
      { time: '2024-07-01T02:00', state: 'off' },
      { time: '2024-07-01T04:00', voltage_v: 10, current_a: 0.04 },
      { time: '2024-07-01T05:00', voltage_v: 10, current_a: 0.02 },
    ]);
    // 0.075 + 0.05 + 0.03 ampere-hours.
    expect(wall.charge_c).toBeCloseTo(0.155 * 3600, 9);
    expect(wall.energy_j).toBeCloseTo(1.55 * 3600, 8);
    expect([wall.on_s, wall.off_s]).toEqual([3 * 3600, 2 * 3600]);
    expect(wall.circuits[0]?.resistance_ohm?.first).toBeCloseTo(100, 9);
    expect(wall.circuits[0]?.resistance_ohm?.last).toBeCloseTo(500, 9);
    expect(wall.current_a).toBeCloseTo(0.155 / 3, 12);
  });

  it('does not depend on the order of rows; a row of volts alone is spanned', () => {
    const rows: Given[] = [
      { time: '2024-07-01T00:00', voltage_v: 10, current_a: 0.1 },
      { time: '2024-07-01T01:00', voltage_v: 10 },
      { time: '2024-07-01T02:00', voltage_v: 10, current_a: 0.06 },
    ];
    expect(only(rows.toReversed()).charge_c).toBeCloseTo(0.16 * 3600, 9);
    expect(only(rows)).toEqual(only(rows.toReversed()));
  });

  it('has no energy where a voltage is lacking, and no NaN where one row stands alone', () => {
    const alone = only([{ time: '2024-07-01', current_a: 0.1 }]);
    expect(alone).toMatchObject({ charge_c: 0, on_s: 0, off_s: 0, current_a: 0 });
    expect('energy_j' in alone).toBe(false);
    expect('currentKept' in (alone.circuits[0] ?? {})).toBe(false);
    expect(JSON.stringify(alone)).not.toContain('null');
  });

  it('adds circuits up, and counts cathodes only where no anode was read', () => {
    const hour = (electrode: string): Given[] =>
      ['00', '01'].map((at) => ({ time: `2024-07-01T${at}:00`, electrode, current_a: 0.1 }));
    expect(only([...hour('anode 1'), ...hour('anode 2')]).charge_c).toBeCloseTo(720, 9);
    expect(only([...hour('Anode'), ...hour('Cathode')]).charge_c).toBeCloseTo(360, 9);
    expect(only(hour('cathode')).charge_c).toBeCloseTo(360, 9);
  });

  it('says how much of the first month’s current was kept', () => {
    const wall = only([
      { time: '2024-07-01', current_a: 0.1 },
      { time: '2024-07-31', current_a: 0.1 },
      { time: '2024-08-30', current_a: 0 },
    ]);
    // 30 days at 0.1 and 30 days at 0.05 on average.
    expect(wall.circuits[0]?.currentKept).toBeCloseTo(0.75, 12);
  });

  it.each([
    // 0.1 A at the start; another reading of 0.2 A belongs to it up to 30 days on, and no longer.
    ['2024-07-31T12:00', 0.15],
    ['2024-07-31T12:01', 0.1],
  ])('takes readings of the first 30 days for the start: one on %s', (time, start) => {
    const wall = only([
      { time: '2024-07-01T12:00', current_a: 0.1 },
      { time, current_a: 0.2 },
    ]);
    // The trapezoid has a mean of 0.15 A.
    expect(wall.circuits[0]?.currentKept).toBeCloseTo(0.15 / start, 12);
  });

  it('counts time against the stated polarity: by its name, or by the sign of the current, not by both', () => {
    const rows = (more: Partial<ElectricalRecord>): Given[] => [
      { time: '2024-07-01T00:00', current_a: 0.1, polarity: 'anode-in-wall' },
      { time: '2024-07-01T03:00', current_a: 0.1, ...more },
      { time: '2024-07-01T04:00', current_a: 0.1, polarity: 'anode-in-wall' },
    ];
    const share = (more: Partial<ElectricalRecord>, changes: Partial<Trial['protocol']> = {}) =>
      only(rows(more), changes).circuits[0]?.reversedShare;
    expect(share({})).toBe(0);
    expect(share({ polarity: 'cathode-in-wall' })).toBeCloseTo(0.25, 12);
    expect(share({ current_a: -0.1 })).toBeCloseTo(0.25, 12);
    expect(share({ current_a: -0.1, polarity: 'cathode-in-wall' })).toBe(0);
    expect(share({}, { treatment: { kind: 'electrodes', polarity: 'cathode-in-wall' } })).toBeCloseTo(0.75, 12);
    expect(only([{ time: '2024-07-01', current_a: 0.1 }]).circuits[0]?.reversedShare).toBeUndefined();
  });

  it('measures the planned time from the treatment to the end of the after window', () => {
    const treatedOn = made.walls.find(({ wall }) => wall === T)?.treatedOn ?? '';
    const to = made.protocol.windows?.after.to ?? '';
    const days = (Date.parse(to) - Date.parse(treatedOn)) / 86_400_000 + 1;
    const wall = only([
      { time: treatedOn, current_a: 0.1 },
      { time: '2024-12-01', current_a: 0.1 },
    ]);
    expect(wall.planned_s).toBe(days * 86_400);
    expect(wall.onShare).toBeCloseTo(wall.on_s / wall.planned_s, 12);
  });
});

describe('chargeLedger', () => {
  const rows: Given[] = [
    { time: '2024-07-01T00:00', current_a: 1 },
    { time: '2024-07-01T01:00', current_a: 1 },
  ];
  const ledger = (trial: Trial, difference?: number) =>
    chargeLedger(trial, electricalOfTrial(trial, sides) ?? [], difference);

  it('sets a charge beside the water, by hand: 0.036 to 36 kg and 0.336 g for an ampere-hour', () => {
    const trial = trialWith(rows);
    const walls = trial.walls.map((wall) => ({ ...wall, area_m2: 5, thickness_mm: 400, dryDensity_kg_m3: 1700 }));
    const found = ledger({ ...trial, walls }, -2);
    expect(found?.moved_kg.low).toBeCloseTo(0.036, 12);
    expect(found?.moved_kg.high).toBeCloseTo(36, 9);
    expect(found?.electrolysed_kg).toBeCloseTo(0.000336, 6);
    // 2 % of 5 m² × 0.4 m × 1700 kg/m³.
    expect(found?.lost_kg).toBeCloseTo(68, 9);
    expect(found?.missing).toEqual([]);
    expect(ledger({ ...trial, walls }, 2)?.lost_kg).toBeCloseTo(-68, 9);
  });

  it('says what is missing, and is absent without a charge in a treated wall', () => {
    const found = ledger(trialWith(rows));
    expect(found?.missing).toEqual(expect.arrayContaining(['area_m2', 'difference']));
    expect(found !== undefined && 'lost_kg' in found).toBe(false);
    expect(ledger(trialWith(rows.map((row) => ({ ...row, wall: U }))), -2)).toBeUndefined();
  });
});
