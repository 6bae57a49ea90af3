import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  type BudgetTerm,
  budgetOfDifference,
  budgetOfTerms,
  inputFromHalfWidth,
  sensitivityCoefficient,
  uncertaintyBudget,
} from '../../../../src/statistics/index.js';

const input = (name: string, value: number, standardUncertainty: number, degreesOfFreedom?: number) => ({
  name,
  value,
  standardUncertainty,
  distribution: 'normal' as const,
  ...(degreesOfFreedom === undefined ? {} : { degreesOfFreedom }),
});
const number = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const someTerms = fc
  .array(
    fc.record({
      // Squares of uncertainties below 1e-154 leave the range of doubles.
      uncertainty: fc.oneof(fc.constant(0), number(1e-150, 10)),
      sensitivity: fc.oneof(fc.constant(0), number(-5, -1e-3), number(1e-3, 5)),
      degreesOfFreedom: fc.integer({ min: 1, max: 60 }),
    }),
    {
      minLength: 1,
      maxLength: 6,
    },
  )
  .map((rows): BudgetTerm[] =>
    rows.map((row, index) => ({
      ...input(`x${index}`, 1, row.uncertainty, row.degreesOfFreedom),
      sensitivity: row.sensitivity,
    })),
  );

describe('uncertaintyBudget', () => {
  it('gives 0.02154 for a quotient, worked by hand: 2 · sqrt(0.01² + 0.004²)', () => {
    const budget = uncertaintyBudget(
      ({ mass, volume }) => mass / volume,
      [
        { name: 'mass', value: 10, standardUncertainty: 0.1, distribution: 'normal' },
        { name: 'volume', value: 5, standardUncertainty: 0.02, distribution: 'normal' },
      ],
    );
    expect(budget.value).toBe(2);
    expect(budget.standardUncertainty).toBeCloseTo(0.0215406592, 9);
    expect(budget.rows.map((row) => row.shareOfVariance)).toEqual([
      expect.closeTo(0.862069, 6),
      expect.closeTo(0.137931, 6),
    ]);
    expect(budget.degreesOfFreedom).toBeUndefined();
    expect(budget.coverage.factor).toBeCloseTo(1.959964, 6);
  });

  it('takes a sensitivity by formula in place of its own difference', () => {
    const budget = uncertaintyBudget(({ x }) => x * x, [{ ...input('x', 3, 0.1), name: 'x' }], {
      sensitivities: { x: () => 7 },
    });
    expect(budget.rows[0]?.sensitivity).toBe(7);
  });

  it('agrees with the formula for products of powers, wherever they stand', () => {
    fc.assert(
      fc.property(number(0.5, 50), number(0.5, 50), number(1e-4, 0.05), number(-3, 3), (a, b, relative, power) => {
        const budget = uncertaintyBudget(
          (x) => (x.a as number) * (x.b as number) ** power,
          [input('a', a, a * relative), input('b', b, b * relative)],
        );
        const expected = Math.abs(a * b ** power) * relative * Math.hypot(1, power);
        expect(budget.standardUncertainty / expected).toBeCloseTo(1, 7);
      }),
    );
  });

  it('refuses two inputs of one name, a model without a result, and a negative uncertainty', () => {
    const model = (x: Readonly<Record<string, number>>) => x.a as number;
    expect(() => uncertaintyBudget(model, [input('a', 1, 1), input('a', 2, 1)])).toThrow(/different name/);
    expect(() => uncertaintyBudget((x) => Math.log(x.a as number), [input('a', 0, 1)])).toThrow(/by formula/);
    expect(() => uncertaintyBudget(model, [input('a', 1, -1)])).toThrow(/zero or more/);
    expect(() => uncertaintyBudget(model, [input('a', 1, 1)], { coverage: { level: 1 } })).toThrow(/level/);
  });
});

describe('sensitivityCoefficient', () => {
  it('finds the slope of exp and of a quadratic, also at a certain input', () => {
    const [x] = [input('x', 1, 0.2)];
    expect(sensitivityCoefficient((v) => Math.exp(v.x as number), [x], x)).toBeCloseTo(Math.E, 6);
    const certain = input('x', 3, 0);
    expect(sensitivityCoefficient((v) => (v.x as number) ** 2, [certain], certain)).toBeCloseTo(6, 7);
    const nothing = input('x', 0, 0);
    expect(sensitivityCoefficient((v) => 2 * (v.x as number), [nothing], nothing)).toBeCloseTo(2, 9);
  });

  it('finds it also where the uncertainty is lost in the value’s last digit', () => {
    const x = input('x', 5e7, 1e-12);
    expect(sensitivityCoefficient((v) => 3 * (v.x as number), [x], x)).toBeCloseTo(3, 7);
  });
});

describe('budgetOfTerms', () => {
  it('always makes shares that add up to one, and never a combined uncertainty below its largest part', () => {
    fc.assert(
      fc.property(someTerms, (terms) => {
        const budget = budgetOfTerms(0, terms);
        if (budget.standardUncertainty === 0) return;
        expect(budget.rows.reduce((sum, row) => sum + row.shareOfVariance, 0)).toBeCloseTo(1, 10);
        expect(budget.standardUncertainty).toBeGreaterThanOrEqual(
          Math.max(...budget.rows.map((row) => row.contribution)) * (1 - 1e-12),
        );
      }),
    );
  });

  it('never has effective degrees of freedom outside the smallest and the sum of its inputs', () => {
    fc.assert(
      fc.property(someTerms, (terms) => {
        const { degreesOfFreedom } = budgetOfTerms(0, terms);
        const stated = terms.map((term) => term.degreesOfFreedom ?? 0);
        if (degreesOfFreedom === undefined) return;
        expect(degreesOfFreedom).toBeGreaterThanOrEqual(Math.min(...stated) * (1 - 1e-9));
        expect(degreesOfFreedom).toBeLessThanOrEqual(stated.reduce((sum, one) => sum + one, 0) * (1 + 1e-9));
      }),
    );
  });

  it('keeps the degrees of freedom of a single input, however small its uncertainty', () => {
    const term = { ...input('x', 1, 1e-81), degreesOfFreedom: 4, sensitivity: -1.77 };
    expect(budgetOfTerms(0, [term]).degreesOfFreedom).toBeCloseTo(4, 10);
  });

  it('adds perfectly correlated inputs, and cancels opposite ones', () => {
    const terms = [
      { ...input('a', 0, 3), sensitivity: 1 },
      { ...input('b', 0, 4), sensitivity: 1 },
    ];
    const tied = (coefficient: number) =>
      budgetOfTerms(0, terms, {}, [{ between: ['a', 'b'], coefficient }]).standardUncertainty;
    expect(tied(1)).toBeCloseTo(7, 12);
    expect(tied(-1)).toBeCloseTo(1, 12);
    expect(tied(0)).toBeCloseTo(5, 12);
  });

  it('refuses correlations that cannot hold together, and one beyond ±1', () => {
    const terms = ['a', 'b', 'c'].map((name) => ({ ...input(name, 0, 1), sensitivity: 1 }));
    const pair = (first: string, second: string, coefficient: number) =>
      ({ between: [first, second], coefficient }) as const;
    expect(() => budgetOfTerms(0, terms, {}, [pair('a', 'b', 0.9), pair('b', 'c', 0.9), pair('a', 'c', -0.9)])).toThrow(
      /hold together/,
    );
    expect(() => budgetOfTerms(0, terms, {}, [pair('a', 'b', 1.1)])).toThrow(/from -1 to 1/);
    expect(() => budgetOfTerms(0, terms, {}, [pair('a', 'z', 0.1)])).toThrow(/of the budget/);
    expect(() => budgetOfTerms(0, terms, {}, [pair('a', 'b', 0.1), pair('b', 'a', 0.2)])).toThrow(/one correlation/);
  });

  it('refuses correlated inputs that do not share degrees of freedom', () => {
    const terms = [
      { ...input('a', 0, 1, 4), sensitivity: 1 },
      { ...input('b', 0, 1, 9), sensitivity: 1 },
    ];
    expect(() => budgetOfTerms(0, terms, {}, [{ between: ['a', 'b'], coefficient: 0.5 }])).toThrow(/same degrees/);
  });

  it('takes a stated coverage factor as it stands', () => {
    const { coverage } = budgetOfTerms(10, [{ ...input('a', 0, 1), sensitivity: 1 }], { coverageFactor: 2 });
    expect(coverage).toEqual({ factor: 2, expandedUncertainty: 2, lower: 8, upper: 12 });
  });
});

describe('budgetOfDifference', () => {
  const budget = (value: number) =>
    budgetOfTerms(value, [
      { ...input('bias', 0, 3), sensitivity: 1 },
      { ...input('noise', 0, 4), sensitivity: 1 },
    ]);

  it('lets a shared bias cancel and adds what is independent: 4·√2 of 3 and 4', () => {
    const change = budgetOfDifference(budget(5), budget(7), { shared: ['bias'] });
    expect(change.value).toBe(-2);
    expect(change.standardUncertainty).toBeCloseTo(4 * Math.SQRT2, 12);
    expect(change.rows.map((row) => row.name)).toEqual(['bias', 'noise (after)', 'noise (before)']);
  });

  it('is √2 of one result where nothing is shared, and nothing where everything is', () => {
    expect(budgetOfDifference(budget(5), budget(7), { shared: [] }).standardUncertainty).toBeCloseTo(
      5 * Math.SQRT2,
      12,
    );
    expect(budgetOfDifference(budget(5), budget(7), { shared: ['bias', 'noise'] }).standardUncertainty).toBe(0);
  });

  it('keeps what is left of a shared error whose sensitivities differ', () => {
    const scaled = (sensitivity: number) => budgetOfTerms(0, [{ ...input('scale', 1, 0.1), sensitivity }]);
    expect(budgetOfDifference(scaled(20), scaled(15), { shared: ['scale'] }).standardUncertainty).toBeCloseTo(0.5, 12);
  });

  it('refuses to call shared what a budget does not have', () => {
    expect(() => budgetOfDifference(budget(5), budget(7), { shared: ['oven'] })).toThrow(/oven in both/);
  });
});

describe('inputFromHalfWidth', () => {
  it('gives a/√3, a/√6 and a/√2', () => {
    const of = (shape: 'rectangular' | 'triangular' | 'arcsine') =>
      inputFromHalfWidth('x', 0, 6, shape).standardUncertainty;
    expect(of('rectangular')).toBeCloseTo(6 / Math.sqrt(3), 12);
    expect(of('triangular')).toBeCloseTo(Math.sqrt(6), 12);
    expect(of('arcsine')).toBeCloseTo(6 / Math.SQRT2, 12);
    expect(() => inputFromHalfWidth('x', 0, -1, 'arcsine')).toThrow(/zero or more/);
  });
});
