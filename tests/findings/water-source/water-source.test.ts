import { describe, expect, it } from 'vitest';
import { waterSource } from '../../../src/findings/water-source/water-source-of-trial.js';
import { checkTrial } from '../../../src/records/read-trial.js';
import { waterSources } from '../../../src/trial/index.js';
import { inFolder, validFolder } from '../../helpers/valid-folder.js';

const share = (hygroscopicShare: number) => waterSource({ hygroscopicShare })?.signs ?? [];
const below = (condensingShare: number) => waterSource({ surface: { walls: 4, condensingShare } })?.signs ?? [];
const rain = (estimate: number, pValue: number, upper: number) =>
  waterSource({ rain: { kind: 'spearman', estimate, pValue, n: 20, interval: { level: 0.95, lower: -0.9, upper } } })
    ?.signs ?? [];
const depths = (lower: number, upper: number) =>
  waterSource({ depths: { shallow_mm: 20, deep_mm: 100, walls: 8, difference: (lower + upper) / 2, lower, upper } })
    ?.signs ?? [];
const salts = (raised: number, low: number, isBand = false) =>
  waterSource({ salts: { walls: 8, raised, low, isBand } })?.signs ?? [];

describe('waterSource', () => {
  it('is nothing where nothing was measured that speaks of it', () => {
    expect(waterSource({})).toBeUndefined();
    expect(share(0.5)).toEqual([]);
  });

  it('has a sign on either side of every limit', () => {
    expect([share(2 / 3), share(0.66), share(1 / 3), share(0.34)]).toEqual([
      ['mostly-hygroscopic'],
      [],
      ['mostly-liquid'],
      [],
    ]);
    expect([below(0.1), below(0.099), below(0.01), below(0.0099)]).toEqual([
      ['condenses'],
      [],
      [],
      ['above-dew-point'],
    ]);
    expect([rain(0.5, 0.0299, 0.8), rain(0.5, 0.03, 0.8), rain(-0.5, 0.01, 0.3), rain(-0.5, 0.01, 0.299)]).toEqual([
      ['follows-rain'],
      [],
      [],
      ['apart-from-rain'],
    ]);
    expect([depths(0.1, 1), depths(-0.1, 1), depths(-1, -0.1)]).toEqual([['wetter-at-surface'], [], ['wetter-inside']]);
    expect([salts(4, 0), salts(3, 5), salts(0, 8), salts(0, 7), salts(0, 0, true)]).toEqual([
      ['salts-raised'],
      [],
      ['salts-low'],
      [],
      ['salt-band'],
    ]);
  });

  it('names every source with what speaks for and against it, and what was not looked for: never one alone', () => {
    const part = waterSource({
      surface: { walls: 4, condensingShare: 0.3 },
      heights: { shape: 'flat', heights: [] },
      depths: { shallow_mm: 20, deep_mm: 100, walls: 8, difference: 2, lower: 1, upper: 3 },
    });
    expect(part?.possible.map(({ source }) => source)).toEqual([...waterSources]);
    expect(part?.possible.find(({ source }) => source === 'condensation')).toEqual({
      source: 'condensation',
      for: ['alike-at-all-heights', 'wetter-at-surface', 'condenses'],
      against: [],
      notLookedFor: [],
    });
    expect(part?.possible.find(({ source }) => source === 'rising-damp')).toEqual({
      source: 'rising-damp',
      for: [],
      against: ['alike-at-all-heights', 'wetter-at-surface'],
      notLookedFor: ['humid'],
    });
  });
});

describe('the key against of the plan', () => {
  const withAgainst = (value: unknown) => {
    const protocol = JSON.parse(String(validFolder()['protocol.json']));
    return inFolder({ ...validFolder(), 'protocol.json': JSON.stringify({ ...protocol, against: value }) }, checkTrial);
  };

  it('is one of the sources, and absent where nothing is said', async () => {
    const stated = await withAgainst('condensation');
    expect(stated.kind === 'trial' && stated.trial.protocol.against).toBe('condensation');
    const silent = await inFolder(validFolder(), checkTrial);
    expect(silent.kind === 'trial' && 'against' in silent.trial.protocol).toBe(false);
  });

  it('is refused where it is none of them', async () => {
    const wrong = await withAgainst('rising damp');
    expect(wrong.kind === 'problems' && wrong.problems.map(({ expected }) => expected)).toEqual([
      expect.stringContaining('rising-damp'),
    ]);
  });
});
