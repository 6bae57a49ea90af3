import { describe, expect, it } from 'vitest';
import { formOpinion } from '../../src/index.js';
import { faults, plant, soundTrialFor } from '../simulation/fault-trials.js';

const lost = faults.find(({ name }) => name === 'height-lost');
if (lost === undefined) throw new Error('no fault loses a height');
const sound = soundTrialFor(lost, 3);

describe('the answer on the heights and depths that both arms kept', () => {
  it('stands among the analyses where stations of a height were lost in one arm', () => {
    const answer = formOpinion(plant(lost, sound, 3)).analyses.at(-1);
    expect(answer?.kind).toBe('estimated');
    expect(answer?.kind === 'estimated' && answer.estimate.id).toBe('common-places');
  });

  it('is not given where none were', () => {
    const ids = formOpinion(sound).analyses.map((answer) =>
      answer.kind === 'estimated' ? answer.estimate.id : answer.notEstimated.id,
    );
    expect(ids).not.toContain('common-places');
  });
});
