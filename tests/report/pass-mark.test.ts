import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { formOpinion, type PassMark, type Protocol, readTrial, type Trial } from '../../src/index.js';
import type { Opinion } from '../../src/opinion/opinion.js';
import { reportDocument } from '../../src/report/report-document.js';
import { opinionJson } from '../../src/report/writers/opinion-json.js';
import { toMarkdown } from '../../src/report/writers/to-markdown.js';
import { madeTrial, soundProtocol, wallsWithChanges } from '../helpers/made-trial.js';

const { margin: _, ...withoutMargin } = soundProtocol;
const source = 'an agreement of 1 February 2024';
const reduction = (reduction_pct: number): PassMark => ({ kind: 'reduction', reduction_pct, source, asMargin: true });
const target = (value: number): PassMark => ({
  kind: 'target',
  target: value,
  by: '2025-06-01',
  source,
  asMargin: true,
});
const planned = (passMark: PassMark): Protocol => ({ ...withoutMargin, passMark });

// Without the charts, which have nothing to say here and take the time.
const written = (opinion: Opinion) => ({
  json: opinionJson(opinion),
  markdown: toMarkdown(reportDocument(opinion)),
});

// Six and six walls that held 8, 8.25, …, 9.25 before: 8.625 on average.
const walls = wallsWithChanges([-4.1, -3.6, -4.4, -3.9, -4.2, -3.7], [-0.2, 0.3, -0.4, 0.1, -0.1, 0.2]);
const trialWith = (protocol: Protocol, made = walls): Trial => madeTrial(made, { protocol });

describe('a pass mark as the margin', () => {
  it('by hand: half of 8.625 is 4.3125, so 4.31; a target of 6 is 2.625 away, so 2.63', () => {
    const half = formOpinion(trialWith(planned(reduction(50))));
    expect(half.protocol.margin).toBe(4.31);
    expect(half.marginOrigin).toEqual({ kind: 'from-pass-mark', margin: 4.31, before: 8.625, walls: 12 });
    expect(half.verdict.code).toBe('some-effect');
    const reached = formOpinion(trialWith(planned(target(6))));
    expect(reached.protocol.margin).toBe(2.63);
    expect(reached.verdict.code).toBe('worthwhile');
  });

  it('leads to the verdict of the same number written by hand, and no later reading moves it', () => {
    const changes = fc.array(fc.integer({ min: -80, max: 20 }), { minLength: 4, maxLength: 4 });
    fc.assert(
      fc.property(changes, changes, fc.integer({ min: 5, max: 95 }), (treated, untreated, percent) => {
        const tenths = (list: readonly number[]) => list.map((one, at) => one / 10 + at / 100);
        const made = wallsWithChanges(tenths(treated), tenths(untreated));
        const marked = formOpinion(trialWith(planned(reduction(percent)), made));
        const margin = Number(((8.375 * percent) / 100).toPrecision(3));
        const written = formOpinion(trialWith({ ...withoutMargin, margin }, made));
        // Walls hold 8, 8.25, 8.5 and 8.75 whatever comes after: 8.375 on average.
        expect(marked.protocol.margin).toBe(margin);
        expect(marked.verdict).toEqual(written.verdict);
        const lost = made.map(({ after: _after, ...wall }, at) => (at % 4 === 0 ? wall : { ...wall, after: 1 + at }));
        expect(formOpinion(trialWith(planned(reduction(percent)), lost)).protocol.margin).toBe(margin);
      }),
      { numRuns: 8 },
    );
  });

  it('a bundled trial: six tenths of what its walls held is more than the device took off', async () => {
    const trial = await readTrial(join(import.meta.dirname, '..', '..', 'datasets', 'paired-garden-walls'));
    const { margin: _stated, ...rest } = trial.protocol;
    const opinion = formOpinion({ ...trial, protocol: { ...rest, passMark: reduction(60) } });
    // No wall was lost, so that the walls compared are those read before. The fall of 4.14 (3.21 to 5.07) stays short.
    const held = opinion.walls.reduce((sum, { before = Number.NaN }) => sum + before, 0) / 24;
    expect(opinion.protocol.margin).toBeCloseTo(0.6 * held, 2);
    expect(opinion.verdict.code).toBe('smaller-than-worthwhile');
    const { markdown, json } = written(opinion);
    const { margin } = JSON.parse(json);
    expect(margin).toMatchObject({ from: 'pass-mark', source, unit: '% by mass', walls: 24 });
    expect(markdown).toContain(`60 % of that is ${margin.value} % by mass`);
    expect(markdown).toContain('No reading after the treatment entered it.');
    expect(opinion.verdict.sentence).toContain(`the ${margin.value} percentage points that the plan calls worthwhile`);
    expect(markdown).toContain(', from the pass mark of the plan');
  });

  it('opinion.json says that a margin was stated, and where it comes from', () => {
    const { json } = written(formOpinion(trialWith({ ...soundProtocol, marginSource: 'clause 7' })));
    expect(JSON.parse(json).margin).toEqual({ value: 2, unit: '% by mass', from: 'protocol', source: 'clause 7' });
  });

  it('comes to no margin where the walls stood at the target before, and says so', () => {
    const opinion = formOpinion(trialWith(planned(target(8.7))));
    // Whether there is an effect is still answered; whether it is worth paying for is not.
    expect([opinion.verdict.code, opinion.verdict.evidence]).toEqual(['some-effect', 'fair']);
    const weakness = opinion.verdict.weaknesses.find(({ code }) => code === 'margin-absent');
    expect(weakness?.text).toContain('the walls stood at the target before the treatment');
    expect(JSON.parse(written(opinion).json).margin).toBeNull();
  });

  it('a target where higher is better lies on the other side', () => {
    const outcome = { ...soundProtocol.outcome, better: 'higher' as const };
    const opinion = formOpinion(trialWith({ ...planned(target(10)), outcome }));
    expect(opinion.protocol.margin).toBe(1.38);
  });
});

describe('a pass mark judged as published, beside the verdict', () => {
  it('a target: mean of the treated walls with Student’s interval, and how many walls of either side stand there', () => {
    const mark = { ...target(4.5), asMargin: false };
    const opinion = formOpinion(trialWith({ ...soundProtocol, passMark: mark }));
    const found = opinion.judging?.passMark;
    // After: 3.9, 4.65, 4.1, 4.85, 4.8, 5.55; R: t.test gives 4.641667 (4.023108 to 5.260226).
    const answer = found?.answer.kind === 'estimated' ? found.answer.estimate : undefined;
    expect(answer?.estimate).toBeCloseTo(4.641667, 6);
    expect(answer?.interval?.lower).toBeCloseTo(4.023108, 6);
    expect(answer?.interval?.upper).toBeCloseTo(5.260226, 6);
    expect(found?.reached).toEqual({ treated: { walls: 2, of: 6 }, untreated: { walls: 0, of: 6 } });
    const { markdown, json } = written(opinion);
    expect(markdown).toContain('It was reached by 2 of 6 treated walls and by 0 of 6 untreated ones');
    expect(markdown).toContain('the interval holds the mark, so that neither passing nor failing is shown');
    expect(JSON.parse(json).judging.passMark.reached.treated).toEqual({ walls: 2, of: 6 });
    expect(opinion.verdict).toEqual(formOpinion(trialWith(soundProtocol)).verdict);
  });

  it('no share of an index is judged', () => {
    const outcome = { ...soundProtocol.outcome, instrument: 'mw', unit: 'index points' };
    const passMark = { ...reduction(50), asMargin: false };
    const trial = trialWith({ ...soundProtocol, outcome, passMark });
    const readings = trial.readings.map((one) => ({ ...one, instrument: 'mw' }));
    const found = formOpinion({ ...trial, readings }).judging?.passMark?.answer;
    expect(found?.kind === 'not-estimated' && found.notEstimated.reason).toEqual({ code: 'not-an-amount' });
  });
});
