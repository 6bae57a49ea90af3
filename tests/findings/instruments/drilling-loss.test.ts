import { describe, expect, it } from 'vitest';
import { formOpinion, type Trial } from '../../../src/index.js';
import { instrumentsSection } from '../../../src/report/sections/instruments-section.js';
import { opinionJson } from '../../../src/report/writers/opinion-json.js';
import { studentT } from '../../../src/statistics/index.js';
import { madeTrial, soundProtocol, wallsWithChanges } from '../../helpers/made-trial.js';

const walls = wallsWithChanges([-2.2, -2.4, -2.6, -2.8], [-0.1, 0.1, -0.2, 0.2]);

function trialWith(stated: {
  readonly drilling_loss_pct?: number;
  readonly drilling_loss_uncertainty_pct?: number;
}): Trial {
  const instruments = [{ instrument: 'core', kind: 'gravimetric' as const, ...stated }];
  return madeTrial(walls, { protocol: { ...soundProtocol, instruments } });
}

const answersOf = (trial: Trial) => formOpinion(trial).instruments.flatMap(({ answers }) => answers);

describe('a share of the water lost in drilling', () => {
  it('leaves the verdict as recorded and gives the corrected answer beside it: −2.5/0.94, worked by hand', () => {
    const opinion = formOpinion(trialWith({ drilling_loss_pct: 6, drilling_loss_uncertainty_pct: 2 }));
    const primary = opinion.primary.kind === 'estimated' ? opinion.primary.estimate : undefined;
    expect(primary?.estimate).toBeCloseTo(-2.5, 10);
    const corrected = opinion.instruments[0]?.answers.find(({ scale }) => scale === 'loss-corrected')?.result;
    if (corrected?.kind !== 'computed' || primary?.interval === undefined) throw new Error('no corrected answer');
    expect(corrected.value.estimate).toBeCloseTo(-2.5 / 0.94, 10);
    // u² = (s/0.94)² + (2.5/0.94 · 0.02/0.94)², with Welch and Satterthwaite’s degrees of freedom.
    const [own, ofShare] = [(primary.standardError ?? 0) / 0.94, ((2.5 / 0.94) * 0.02) / 0.94];
    const total = Math.hypot(own, ofShare);
    const freedom = (primary.degreesOfFreedom ?? 1) * (total / own) ** 4;
    const half = studentT(freedom).upperQuantile(0.025) * total;
    expect(corrected.value.interval.lower).toBeCloseTo(-2.5 / 0.94 - half, 9);
    expect(corrected.value.interval.upper).toBeCloseTo(-2.5 / 0.94 + half, 9);
  });

  it('stands in the report and in opinion.json where it is stated, and nowhere else', () => {
    const stated = formOpinion(trialWith({ drilling_loss_pct: 6 }));
    expect(JSON.stringify(instrumentsSection(stated))).toContain('corrected for the loss in drilling');
    const json = JSON.parse(opinionJson(stated));
    expect(json.instruments[0].answers[1]).toMatchObject({ scale: 'loss-corrected', code: 'worthwhile' });
    // The margin is 2.
    expect(json.instruments[0].answers[1].interval.upper).toBeLessThan(-2);
    expect(answersOf(trialWith({})).map(({ scale }) => scale)).toEqual(['as-read']);
    expect(answersOf(trialWith({ drilling_loss_pct: 0 })).map(({ result }) => result)[1]).toMatchObject({
      value: { estimate: expect.closeTo(-2.5, 10) },
    });
  });
});
