import { describe, expect, it } from 'vitest';
import { changesJson } from '../../../src/findings/answer/changes-json.js';
import { changesOfArms } from '../../../src/findings/answer/changes-of-arms.js';
import { sideChanges } from '../../../src/findings/answer/side-changes.js';
import { answerOfTrial } from '../../../src/opinion/answer-of-trial.js';
import type { Trial } from '../../../src/trial/index.js';
import { madeTrial, soundProtocol, wallsWithChanges } from '../../helpers/made-trial.js';

function changesIn(trial: Trial) {
  const answer = answerOfTrial(trial);
  return { answer, changes: changesOfArms({ ...answer, protocol: answer.trial.protocol }) };
}

const walls = wallsWithChanges([-1, -4, -2.5], [0.5, -0.5, 0]);

describe('changesOfArms(opinion)', () => {
  it('puts the treated arm first, those that did best first, and the margin where the difference would be the margin', () => {
    const { answer, changes } = changesIn(madeTrial(walls));
    expect(changes.arms.map(({ arm }) => arm)).toEqual(['treated', 'sham']);
    for (const [at, expected] of [
      [0, [-4, -2.5, -1]],
      [1, [-0.5, 0, 0.5]],
    ] as const)
      for (const [row, change] of expected.entries())
        expect(changes.arms[at]?.walls[row]?.change).toBeCloseTo(change, 10);
    expect(changes.marginAt).toBeCloseTo(-2, 10);
    const estimate = answer.primary.kind === 'estimated' ? answer.primary.estimate.estimate : Number.NaN;
    const [treated, sham] = changes.arms.map((arm) => arm.mean.mean);
    expect((treated ?? 0) - (sham ?? 0)).toBeCloseTo(estimate, 10);
  });

  it('has Student’s interval of the arm’s mean: −2.5 ± 4.303 · 1.5 / √3, by hand', () => {
    const { interval } = changesIn(madeTrial(walls)).changes.arms[0]?.mean ?? {};
    expect(interval?.lower).toBeCloseTo(-2.5 - (4.302653 * 1.5) / Math.sqrt(3), 5);
    expect(interval?.upper).toBeCloseTo(-2.5 + (4.302653 * 1.5) / Math.sqrt(3), 5);
  });

  it('turns round where higher is better', () => {
    const outcome = { ...soundProtocol.outcome, better: 'higher' as const };
    const { changes } = changesIn(madeTrial(walls, { protocol: { ...soundProtocol, outcome } }));
    expect(changes.arms[0]?.walls[0]?.change).toBeCloseTo(-1, 10);
    expect(changes.marginAt).toBeCloseTo(2, 10);
  });

  it('counts every site once where sites were allocated', () => {
    const sites = ['A', 'A', 'B', 'C', 'C', 'D'];
    const placed = walls.map((wall, at) => ({ ...wall, site: sites[at] ?? '' }));
    const allocation = { ...soundProtocol.allocation, unit: 'site' as const };
    const { answer, changes } = changesIn(madeTrial(placed, { protocol: { ...soundProtocol, allocation } }));
    expect(answer.units.kind).toBe('site');
    expect(changes.arms[0]?.walls).toHaveLength(3);
    expect(changes.arms[0]?.mean.walls).toBe(2);
    expect(changes.arms[0]?.mean.mean).toBeCloseTo(-2.5, 10);
  });

  it('has no margin line without a margin or without untreated walls, and no interval for one wall', () => {
    const { margin: _, ...protocol } = soundProtocol;
    expect(changesIn(madeTrial(walls, { protocol })).changes.marginAt).toBeUndefined();
    const { changes } = changesIn(madeTrial(walls.slice(0, 1)));
    expect(changes.marginAt).toBeUndefined();
    expect(changes.arms.map(({ mean }) => mean.interval)).toEqual([undefined]);
  });
});

describe('sideChanges(arms)', () => {
  const arm = (side: 'treated' | 'untreated', walls: number, change: number) => ({
    ...{ arm: `${side} ${walls}`, side, walls, before: 8, after: 8 + change, change },
  });

  it('counts each wall of a side once, whatever its arm: (1 · −2 + 3 · −4) / 4, by hand', () => {
    expect(sideChanges([arm('treated', 1, -2), arm('treated', 3, -4), arm('untreated', 2, 0.5)])).toEqual({
      treated: -3.5,
      untreated: 0.5,
    });
  });

  it('is nothing where a side has no wall, or none was read before', () => {
    expect(sideChanges([arm('treated', 2, -1)])).toBeUndefined();
    const { before: _, ...unread } = arm('untreated', 2, 6);
    expect(sideChanges([arm('treated', 2, -1), unread])).toBeUndefined();
  });

  it('stands in the changes of a trial', () => {
    const { sides } = changesIn(madeTrial(walls)).changes;
    expect(sides?.treated).toBeCloseTo(-2.5, 10);
    expect(sides?.untreated).toBeCloseTo(0, 10);
  });
});

describe('changesJson(changes, unit)', () => {
  it('gives every arm’s mean, interval and walls, best first, and null where there is none', () => {
    const full = changesJson(changesIn(madeTrial(walls)).changes, '% by mass');
    expect(full).toMatchObject({ unit: '% by mass', marginAt: expect.closeTo(-2, 10) });
    expect(full.sides?.treated).toBeCloseTo(-2.5, 10);
    expect(full.arms.map(({ arm, side, units, walls: names }) => [arm, side, units, names])).toEqual([
      ['treated', 'treated', 3, ['T2', 'T3', 'T1']],
      ['sham', 'untreated', 3, ['U2', 'U3', 'U1']],
    ]);
    expect(full.arms[0]?.interval?.lower).toBeCloseTo(-2.5 - (4.302653 * 1.5) / Math.sqrt(3), 5);
    const bare = changesJson(changesIn(madeTrial(walls.slice(0, 1))).changes, '% by mass');
    expect(bare).toMatchObject({ marginAt: null, sides: null, arms: [{ interval: null }] });
  });
});
