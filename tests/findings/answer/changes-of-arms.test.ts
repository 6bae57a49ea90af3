import { describe, expect, it } from 'vitest';
import { changesOfArms } from '../../../src/findings/answer/changes-of-arms.js';
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
