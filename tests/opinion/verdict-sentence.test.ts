import { describe, expect, it } from 'vitest';
import { formOpinion, verdictOfTrial } from '../../src/opinion/index.js';
import type { Trial } from '../../src/trial/index.js';
import { madeTrial, soundProtocol, wallsWithChanges } from '../helpers/made-trial.js';

const still = [-0.2, 0.3, -0.4, 0.1, -0.1, 0.2];
const spread = [-0.3, 0.2, 0.1, -0.1, 0.3, -0.2];

function verdict(shift: number, changes: Partial<Trial> = {}, scatter = 1) {
  const walls = wallsWithChanges(
    spread.map((value) => scatter * value + shift),
    still.map((value) => scatter * value),
  );
  return formOpinion(madeTrial(walls, changes)).verdict;
}

// Limits of the first row: R 4.2.2, t.test of the twelve changes.
describe('verdictSentence', () => {
  it.each([
    [
      -4,
      1,
      'worthwhile',
      /^In this trial the treatment made a worthwhile difference\. Against the untreated walls the moisture content of the treated walls fell by 3\.98 percentage points \(95 % interval 3\.66 to 4\.31, all of it beyond the 2 percentage points that the plan calls worthwhile\)\.$/,
    ],
    [-2, 1, 'some-effect', /may or may not be large enough.*which excludes zero and includes the 2 percentage points/],
    [
      -1,
      1,
      'smaller-than-worthwhile',
      /too small to be worthwhile.*which excludes zero and stays below the 2 percentage points/,
    ],
    [
      0,
      1,
      'no-worthwhile-effect',
      /made no worthwhile difference.*rose by 0\.02 percentage points \(95 % interval from a fall of .* which includes zero and stays below/,
    ],
    [3, 1, 'harmful', /made the walls worse.*rose by 3\.02 percentage points.*wrong side/],
    [
      -1,
      8,
      'undecided',
      /leaves open whether the treatment makes a worthwhile difference or none.*which includes zero as well as the 2/,
    ],
  ] as const)('a shift of %d with scatter %d is %s and says so', (shift, scatter, code, words) => {
    const { code: found, sentence, evidence } = verdict(shift, {}, scatter);
    expect(found).toBe(code);
    expect(evidence).toBe('firm');
    expect(sentence).toMatch(words);
  });

  it('claims less of the treatment as the evidence weakens', () => {
    const chosen = { ...soundProtocol, allocation: { method: 'chosen' as const, by: 'owner' } };
    const fair = verdict(-4, { protocol: chosen });
    expect([fair.evidence, fair.code]).toEqual(['fair', 'worthwhile']);
    expect(fair.sentence).toContain('the treatment is the likeliest reason');
    const shaky = verdict(-4, { protocol: { ...chosen, plannedOn: '2025-06-01' } });
    expect(shaky.evidence).toBe('shaky');
    expect(shaky.sentence).toContain('leave other reasons open');
  });

  it('never says that something is proved or significant', () => {
    for (const shift of [-4, -2, -1, 0, 3]) expect(verdict(shift).sentence).not.toMatch(/prove|proof|significant/i);
  });

  it('says why there is no answer, and what the walls did', () => {
    const walls = wallsWithChanges([-4.1, -3.9], []);
    const { code, sentence } = formOpinion(madeTrial(walls)).verdict;
    expect(code).toBe('not-answerable');
    expect(sentence).toMatch(
      /^This trial cannot say whether the treatment works\. All 2 walls in the comparison were treated/,
    );
    expect(sentence).toMatch(
      /What was seen: the moisture content of the 2 treated walls fell by 4\.00 percentage points on average/,
    );
  });

  it('gives no answer where a fault is fatal, although the walls that have windows give an interval', () => {
    const { windows, ...open } = soundProtocol;
    const made = madeTrial(wallsWithChanges([-4.1, -3.9, -4, -4.2], [0.1, -0.1, 0, 0.2]), { protocol: open });
    const walls = made.walls.map((wall, at) => (at === 3 || windows === undefined ? wall : { ...wall, windows }));
    const { verdict: found, facts } = verdictOfTrial({ ...made, walls });
    expect(facts.primary.kind).toBe('estimated');
    expect(found).toMatchObject({ code: 'not-answerable', evidence: 'none' });
    expect(found.weaknesses.map(({ code }) => code)).toContain('windows-absent');
  });
});
