import { describe, expect, it } from 'vitest';
import {
  budgetAgainstMonteCarlo,
  type InputQuantity,
  inputFromHalfWidth,
  monteCarloUncertainty,
  uncertaintyBudget,
} from '../../../../src/statistics/index.js';

const trials = 40_000;
const alone = (input: InputQuantity<'x'>) => monteCarloUncertainty(({ x }) => x, [input], { seed: 5, trials });
const normalInput = <Name extends string>(name: Name, value: number, standardUncertainty: number) =>
  ({ name, value, standardUncertainty, distribution: 'normal' }) as const;

describe('monteCarloUncertainty', () => {
  it.each([
    // Half-width 1: the 95 % interval of each shape by its own formula.
    ['rectangular', 0.95, Math.sqrt(1 / 3)],
    ['triangular', 1 - Math.sqrt(0.05), Math.sqrt(1 / 6)],
    ['arcsine', Math.sin(0.475 * Math.PI), Math.sqrt(1 / 2)],
  ] as const)('draws the %s shape: half of its 95 %% interval is %f', (shape, half, deviation) => {
    const { interval, mean, standardUncertainty } = alone(inputFromHalfWidth('x', 10, 1, shape));
    expect(Math.abs(mean - 10)).toBeLessThan((4 * deviation) / Math.sqrt(trials));
    expect(Math.abs(standardUncertainty / deviation - 1)).toBeLessThan(0.015);
    expect(Math.abs(interval.upper - 10 - half)).toBeLessThan(0.01);
    expect(Math.abs(10 - interval.lower - half)).toBeLessThan(0.01);
  });

  it('draws Student’s t with 4.5 degrees of freedom: 97.5 % point 2.659 (R: qt(0.975, 4.5))', () => {
    const { interval } = alone({
      name: 'x',
      value: 0,
      standardUncertainty: 1,
      distribution: 'student-t',
      degreesOfFreedom: 4.5,
    });
    // Standard error of a 2.5 % point here: about 0.025.
    expect(Math.abs(interval.upper - 2.659)).toBeLessThan(0.08);
    expect(Math.abs(interval.lower + 2.659)).toBeLessThan(0.08);
  });

  it('draws correlated normal inputs: the variance of a sum is 1 + 1 + 2r', () => {
    const { standardUncertainty } = monteCarloUncertainty(
      ({ a, b }) => a + b,
      [normalInput('a', 0, 1), normalInput('b', 0, 1)],
      { seed: 5, trials, correlations: [{ between: ['a', 'b'], coefficient: -0.6 }] },
    );
    expect(Math.abs(standardUncertainty / Math.sqrt(0.8) - 1)).toBeLessThan(0.015);
  });

  it('agrees with the budget of a straight model, and not with that of a bent one', () => {
    const inputs = [normalInput('a', 5, 1), normalInput('b', 2, 0.5)];
    const straight = ({ a, b }: Record<'a' | 'b', number>) => 2 * a - b;
    const bent = ({ a, b }: Record<'a' | 'b', number>) => a ** 2 / b;
    const compare = (model: typeof straight) =>
      budgetAgainstMonteCarlo(
        uncertaintyBudget(model, inputs),
        monteCarloUncertainty(model, inputs, { seed: 3, trials }),
        1,
      );
    expect(compare(straight)).toMatchObject({ agrees: true, tolerance: 0.5 });
    expect(compare(bent).agrees).toBe(false);
  });

  it('finds a shortest interval no wider than the other, and far from it for a skewed result', () => {
    const { interval, shortestInterval } = monteCarloUncertainty(({ x }) => Math.exp(x), [normalInput('x', 0, 1)], {
      seed: 9,
      trials,
    });
    expect(shortestInterval.upper - shortestInterval.lower).toBeLessThan(interval.upper - interval.lower);
    // exp(±1.96) for the one; the other begins near zero.
    expect(Math.abs(interval.lower - Math.exp(-1.96))).toBeLessThan(0.02);
    expect(shortestInterval.lower).toBeLessThan(0.08);
  });

  it('gives the same for the same seed and another for another', () => {
    const run = (seed: number) => monteCarloUncertainty(({ x }) => x, [normalInput('x', 0, 1)], { seed, trials: 1000 });
    expect(run(1)).toEqual(run(1));
    expect(run(1).mean).not.toBe(run(2).mean);
  });

  it('refuses what has no result, too few trials, shaped inputs that are correlated, and t without degrees of freedom', () => {
    const shaped = inputFromHalfWidth('a', 0, 1, 'rectangular');
    expect(() =>
      monteCarloUncertainty(({ x }) => 1 / (x > 0 ? 0 : 1), [normalInput('x', 0, 1)], { seed: 1, trials: 1000 }),
    ).toThrow(/for every draw/);
    expect(() => monteCarloUncertainty(({ x }) => x, [normalInput('x', 0, 1)], { seed: 1, trials: 10 })).toThrow(
      /1000/,
    );
    expect(() =>
      monteCarloUncertainty(({ a, b }) => a + b, [shaped, normalInput('b', 0, 1)], {
        seed: 1,
        correlations: [{ between: ['a', 'b'], coefficient: 0.5 }],
      }),
    ).toThrow(/a is rectangular/);
    expect(() => alone({ name: 'x', value: 0, standardUncertainty: 1, distribution: 'student-t' })).toThrow(
      /degrees of freedom/,
    );
  });
});
