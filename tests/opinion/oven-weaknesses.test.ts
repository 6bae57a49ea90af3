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
      /^24 cores .* above 42 °C \(at 105 °C\).*up to 2\.1 percentage points/,
    ],
    ['serious', [{ oven_c: 40 }, { oven_c: 105 }], /^12 cores .* \(at 40 °C and 105 °C\)/],
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
});
