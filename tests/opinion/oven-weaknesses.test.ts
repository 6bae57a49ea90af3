import { describe, expect, it } from 'vitest';
import { formOpinion } from '../../src/opinion/index.js';
import type { DryingBatchRecord, Trial } from '../../src/trial/index.js';
import { madeTrial, wallsWithChanges } from '../helpers/made-trial.js';

const sound = madeTrial(wallsWithChanges([-4.1, -3.6, -4.4, -3.9, -4.2, -3.7], [-0.2, 0.3, -0.4, 0.1, -0.1, 0.2]));

/** The sound trial's readings as cores of 100 g dry, before in the first batch and after in the second. */
function dried(batches: readonly Omit<DryingBatchRecord, 'batch' | 'origin'>[], material: string): Trial {
  const cores = sound.readings.map(({ date, wall, station, value, reader, knewArm, origin }) => ({
    date,
    wall,
    station,
    container_g: 0,
    wet_g: 100 + (value.kind === 'measured' ? value.value : 0),
    dry_g: 100,
    batch: date < '2025' ? 'B1' : 'B2',
    ...(reader === undefined ? {} : { reader }),
    ...(knewArm === undefined ? {} : { knewArm }),
    origin,
  }));
  const records = batches.map((batch, index) => {
    const origin = { file: 'batches.csv', row: index + 2 };
    return { ...batch, batch: `B${index + 1}`, origin };
  });
  return { ...sound, walls: sound.walls.map((wall) => ({ ...wall, material })), readings: [], cores, batches: records };
}

function found(trial: Trial, code: string) {
  return formOpinion(trial).verdict.weaknesses.find((weakness) => weakness.code === code);
}

describe('weaknesses of the oven', () => {
  const gypsum = 'brick, gypsum plaster';
  it.each([
    [
      'minor',
      [{ oven_c: 105 }, { oven_c: 105 }],
      /^24 of 24 cores .* above 42 °C \(ovens at 105 °C\).*up to 2\.1 percentage points/,
    ],
    ['serious', [{ oven_c: 40 }, { oven_c: 105 }], /^12 of 24 cores .* \(ovens at 40 °C and 105 °C\)/],
  ])('oven-too-hot-for-gypsum is %s for %j', (seriousness, batches, words) => {
    const weakness = found(dried(batches, gypsum), 'oven-too-hot-for-gypsum');
    expect(weakness?.seriousness).toBe(seriousness);
    expect(weakness?.text).toMatch(words);
  });

  it.each([
    ['at 40 °C', [{ oven_c: 40 }, { oven_c: 40 }], gypsum],
    ['without gypsum', [{ oven_c: 105 }, { oven_c: 105 }], 'brick, lime mortar'],
    ['with no temperature stated', [{}, {}], gypsum],
  ])('oven-too-hot-for-gypsum is not found %s', (_, batches, material) => {
    expect(found(dried(batches, material), 'oven-too-hot-for-gypsum')).toBeUndefined();
  });

  it('not-dried-to-constant-mass names the batch and the largest change, and keeps quiet at the rule itself', () => {
    const weakness = found(
      dried([{ lastChange_pct: 0.1 }, { lastChange_pct: 0.4 }], 'brick'),
      'not-dried-to-constant-mass',
    );
    expect(weakness?.text).toMatch(/^12 cores \(batch B2\) were taken as dry while still losing up to 0\.4 %/);
    const atTheRule = dried([{ lastChange_pct: 0.1 }, { lastChange_pct: 0.02 }], 'brick');
    expect(found(atTheRule, 'not-dried-to-constant-mass')).toBeUndefined();
  });

  it('not-dried-to-constant-mass says where a batch missed its own rule, stricter or looser than the usual one', () => {
    const strict = { stopRule: 'under 0.05 % of the mass in a day', lastChange_pct: 0.08 };
    const missed = found(dried([{ lastChange_pct: 0.02 }, strict], 'brick'), 'not-dried-to-constant-mass');
    expect(missed?.text).toMatch(
      /^12 cores \(batch B2\) .* 0\.08 % .* in batch B2 more than the batch’s own stop rule/,
    );
    expect(missed?.text).not.toContain('usual rule');
    const loose = { stopRule: 'under 0.5 % of the mass in 4 h', lastChange_pct: 0.3 };
    const kept = found(dried([loose, { lastChange_pct: 0.02 }], 'brick'), 'not-dried-to-constant-mass');
    expect(kept?.text).toContain('more than the 0.1 % of the usual rule');
    expect(kept?.text).not.toContain('own stop rule');
    const both = found(dried([{ ...loose, lastChange_pct: 0.6 }, strict], 'brick'), 'not-dried-to-constant-mass');
    expect(both?.text).toMatch(/^24 cores .* usual rule, and in batches B1 and B2 more than/);
  });

  it('not-dried-to-constant-mass is not found where the stated rule was met, or cannot be held against the change', () => {
    const met = { stopRule: 'under 0.1 %', lastChange_pct: 0.1 };
    const unclear = { stopRule: 'under 0.01 % of the water', lastChange_pct: 0.05 };
    expect(found(dried([met, unclear], 'brick'), 'not-dried-to-constant-mass')).toBeUndefined();
  });

  it('dried-unlike is minor where both arms changed ovens together, serious where one arm had another oven', () => {
    const visits = dried([{ oven_c: 105 }, { oven_c: 70 }], 'brick');
    expect(found(visits, 'dried-unlike')).toMatchObject({ seriousness: 'minor' });
    expect(found(visits, 'dried-unlike')?.text).toContain('(70 °C and 105 °C), but alike for treated and untreated');
    const treated = new Set(sound.walls.filter(({ arm }) => arm === 'treated').map(({ wall }) => wall));
    const cores = visits.cores.map((core) => ({ ...core, batch: treated.has(core.wall) ? 'B1' : 'B2' }));
    expect(found({ ...visits, cores }, 'dried-unlike')).toMatchObject({ seriousness: 'serious' });
    // Untreated walls before with no batch named: nothing says that they were dried as the treated ones were.
    const unnamed = visits.cores.map(({ batch = '', ...core }) =>
      core.date < '2025' && !treated.has(core.wall) ? core : { ...core, batch },
    );
    expect(found({ ...visits, cores: unnamed }, 'dried-unlike')?.text).toContain('not known to be alike');
  });

  it.each([
    ['ovens at 103 and 107 °C', [{ oven_c: 103 }, { oven_c: 107 }], 'brick'],
    ['walls of gypsum, of which oven-too-hot-for-gypsum speaks', [{ oven_c: 105 }, { oven_c: 70 }], gypsum],
    ['one oven unstated', [{ oven_c: 105 }, {}], 'brick'],
  ])('dried-unlike is not found for %s', (_, batches, material) => {
    expect(found(dried(batches, material), 'dried-unlike')).toBeUndefined();
  });
});
