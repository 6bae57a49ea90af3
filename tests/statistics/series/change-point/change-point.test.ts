import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import {
  bentCurve,
  changeInMean,
  correctedCriterion,
  isStatisticsError,
  modelWeights,
} from '../../../../src/statistics/index.js';
import { expectRelative } from '../../../helpers/expect-relative.js';

interface Bend {
  readonly name: string;
  readonly x: readonly number[];
  readonly response: readonly number[];
  readonly bend: number;
  readonly lower: number;
  readonly upper: number;
  readonly slopes: readonly number[];
  readonly errors: readonly number[];
  readonly sum: number;
}

interface Step {
  readonly x: readonly number[];
  readonly values: readonly number[];
  readonly time: number;
  readonly lower: number;
  readonly upper: number;
  readonly before: number;
  readonly after: number;
  readonly sum: number;
}

const url = new URL('../../../reference/drying-curves/drying-curves.json', import.meta.url);
const { bends, step }: { readonly bends: readonly Bend[]; readonly step: Step } = JSON.parse(
  readFileSync(url, 'utf8'),
).cases;

function faultOf(call: () => unknown) {
  try {
    call();
  } catch (error) {
    if (isStatisticsError(error)) return error.fault;
    throw error;
  }
  return undefined;
}

describe('bentCurve(data)', () => {
  it.each(bends.map((one) => [one.name, one] as const))('gives what a search over R’s lm gives: %s', (name, one) => {
    const after = name === 'wtloss' ? { after: Math.sqrt } : {};
    const bent = bentCurve({ x: one.x, response: one.response, ...after });
    // Golden sections and optimize know the least point to the root of the rounding.
    expectRelative(bent.bend, one.bend, 1e-6, 'bend');
    expectRelative(bent.residualSumOfSquares, one.sum, 1e-10, 'sum of squares');
    expectRelative(bent.bendInterval.lower, one.lower, 1e-6, 'lower');
    expectRelative(bent.bendInterval.upper, one.upper, 1e-6, 'upper');
    [bent.slopeBefore, bent.slopeAfter].forEach(({ estimate, standardError }, k) => {
      expectRelative(estimate, one.slopes[k]!, 1e-6, 'slope');
      expectRelative(standardError, one.errors[k]!, 1e-5, 'error of slope');
    });
  });

  it('finds a bend that is there, and moves with the units', () => {
    const x = [0, 1, 2, 3, 4, 5, 6];
    const response = [0.1, 1, 1.9, 3.1, 3.2, 3.0, 3.1];
    const bent = bentCurve({ x, response });
    expect(bent.bend.toFixed(2)).toBe('3.18');
    const scaled = bentCurve({ x: x.map((at) => 24 * at + 5), response: response.map((value) => 10 * value) });
    expectRelative(scaled.bend, 24 * bent.bend + 5, 1e-7);
    expectRelative(scaled.slopeBefore.estimate, (bent.slopeBefore.estimate * 10) / 24, 1e-7);
  });

  it('refuses what has no bend to be found', () => {
    expect(faultOf(() => bentCurve({ x: [1, 2, 3], response: [1, 2, 3] }))).toBe('too-few');
    expect(faultOf(() => bentCurve({ x: [1, 1, 1, 2, 2, 3], response: [1, 2, 3, 4, 5, 6] }))).toBe('too-few');
    expect(faultOf(() => bentCurve({ x: [1, 2, 3, 4, 5, 6], response: [2, 4, 6, 8, 10, 12] }))).toBe('no-variation');
    expect(faultOf(() => bentCurve({ x: [1, 2, 3, 4, 5, 6], response: [1, 1, 1, 1, 1, 1, 1] }))).toBe('lengths-differ');
  });
});

describe('changeInMean(times, values)', () => {
  it('gives what a search in R gives: the flow of the Nile, 1871 to 1970', () => {
    const found = changeInMean(step.x, step.values);
    expect([found.time, found.interval.lower, found.interval.upper]).toEqual([step.time, step.lower, step.upper]);
    expectRelative(found.before, step.before, 1e-12);
    expectRelative(found.after, step.after, 1e-12);
    expectRelative(found.residualSumOfSquares, step.sum, 1e-12);
    expect(found.statistic).toBeLessThan(-8);
  });

  it('gives what its example prints, and refuses what has no step', () => {
    expect(changeInMean([0, 1, 2, 3, 4, 5], [1.0, 1.1, 0.9, 3.0, 3.2, 3.1]).time).toBe(2.5);
    expect(faultOf(() => changeInMean([0, 1, 2], [1, 2, 3]))).toBe('too-few');
    expect(faultOf(() => changeInMean([0, 1, 2, 3, 3], [1, 2, 3, 4, 5]))).toBe('out-of-range');
    expect(faultOf(() => changeInMean([0, 1, 2, 3, 4], [1, 1, 1, 1, 1]))).toBe('no-variation');
  });
});

describe('correctedCriterion(fit), modelWeights(criteria)', () => {
  it('give what their examples print', () => {
    const criterion = correctedCriterion({ observations: 8, parameters: 3, residualSumOfSquares: 0.6 });
    // By hand: 8 (ln(2π 0.6 / 8) + 1) + 8 + 40 / 3.
    expectRelative(criterion, 8 * (Math.log((2 * Math.PI * 0.6) / 8) + 1) + 8 + 40 / 3, 1e-14);
    expect(criterion.toFixed(3)).toBe('23.314');
    expect(modelWeights([10, 12]).map(({ weight }) => weight.toFixed(3))).toEqual(['0.731', '0.269']);
  });

  it('refuse too few observations, and weights do not hang on the level of the criteria', () => {
    expect(faultOf(() => correctedCriterion({ observations: 5, parameters: 3, residualSumOfSquares: 1 }))).toBe(
      'too-many-parameters',
    );
    const high = modelWeights([1e5 + 10, 1e5 + 12, 1e5 + 500]);
    expectRelative(high[0]?.weight, modelWeights([10, 12])[0]!.weight, 1e-9);
    expectRelative(
      high.reduce((sum, { weight }) => sum + weight, 0),
      1,
      1e-14,
    );
  });
});
