import { describe, expect, it } from 'vitest';
import { agreementOfAnalyses } from '../../src/opinion/agreement-of-analyses.js';
import { formOpinion, type Opinion } from '../../src/opinion/index.js';
import { agreementInWords } from '../../src/report/words/agreement.js';
import { agreementJson } from '../../src/report/writers/agreement-json.js';
import { madeTrial, wallsWithChanges } from '../helpers/made-trial.js';

const opinion = formOpinion(madeTrial(wallsWithChanges([-4.1, -3.6, -4.4, -3.9, -4.2], [-0.2, 0.3, -0.4, 0.1, -0.1])));

/** The opinion with one analysis moved and stretched. */
function withAnalysis(id: string, shift: number, stretch: number): Opinion {
  const analyses = opinion.analyses.map((answer) => {
    if (answer.kind === 'not-estimated' || answer.estimate.id !== id || answer.estimate.interval === undefined)
      return answer;
    const { estimate, interval } = answer.estimate;
    const limit = (value: number) => estimate + shift + stretch * (value - estimate);
    const moved = { ...interval, lower: limit(interval.lower), upper: limit(interval.upper) };
    return { ...answer, estimate: { ...answer.estimate, estimate: estimate + shift, interval: moved } };
  });
  return { ...opinion, analyses, agreement: agreementOfAnalyses(opinion.protocol, opinion.primary, analyses) };
}

describe('agreementInWords(opinion)', () => {
  it('says that all other analyses lead to the same verdict', () => {
    expect(agreementInWords(opinion)).toMatch(/all \d other analyses with an interval lead to the same verdict/);
  });

  it('names an analysis that would say something else, and what sets it apart: its estimate', () => {
    expect(agreementInWords(withAnalysis('baseline-adjusted', 3, 1))).toMatch(
      /1 of \d other analyses .* another verdict than “worthwhile”\. “Baseline-adjusted \(ANCOVA\)” would say “an effect smaller than worthwhile”, because it sets walls .* \(its estimate lies 3\.\d+ % by mass higher\)/,
    );
  });

  it('names an analysis whose interval is wider', () => {
    expect(agreementInWords(withAnalysis('bootstrap', 0, 8))).toMatch(
      /“Bootstrap, resampling walls” would say “(some effect|undecided)”, because it takes its interval from resampling .* times as wide\)/,
    );
  });

  it('has nothing to hold others against where the primary analysis has no interval', () => {
    expect(agreementInWords(formOpinion(madeTrial(wallsWithChanges([-4], [0]))))).toMatch(/has no interval/);
  });
});

describe('agreementJson(agreement)', () => {
  const apartOf = (of: Opinion) =>
    agreementJson(of.agreement)?.apart.map(({ id, code, because }) => [id, code, because]);

  it('has the verdict that the primary interval gives, and nothing apart where all agree', () => {
    const found = agreementJson(opinion.agreement);
    expect(found).toMatchObject({ code: 'worthwhile', apart: [] });
    expect(found?.others).toBeGreaterThan(2);
  });

  it('names what would say something else, with the reason as a code and its number', () => {
    expect(apartOf(withAnalysis('baseline-adjusted', 3, 1))).toEqual([
      ['baseline-adjusted', 'smaller-than-worthwhile', { kind: 'shifted', shift: expect.any(Number) }],
    ]);
    expect(apartOf(withAnalysis('bootstrap', 0, 8))?.[0]?.[2]).toMatchObject({
      kind: 'wider',
      ratio: expect.any(Number),
    });
  });

  it('is null without a primary interval', () => {
    expect(agreementJson(formOpinion(madeTrial(wallsWithChanges([-4], [0]))).agreement)).toBeNull();
  });
});
