import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  covariate,
  designMatrix,
  intercept,
  leastSquares,
  type NonlinearProblem,
  nonlinearLeastSquares,
  profileInterval,
  StatisticsError,
  type StatisticsFault,
} from '../../../../src/statistics/index.js';

const decay = ({ wet, rate }: { readonly wet: number; readonly rate: number }, day: number) =>
  wet * Math.exp(-rate * day);
const drying = { model: decay, x: [0, 1, 2, 4, 8], response: [10.1, 6.9, 5.1, 2.6, 0.8], start: { wet: 8, rate: 0.5 } };

/** Days, and responses about a decay that are nowhere near exact, so that rounding plays no part. */
const noisyDrying = fc
  .record({
    wet: fc.double({ min: 5, max: 20, noNaN: true }),
    rate: fc.double({ min: 0.1, max: 0.6, noNaN: true }),
    noise: fc.array(fc.double({ min: -0.5, max: 0.5, noNaN: true }), { minLength: 8, maxLength: 8 }),
  })
  .filter(({ noise }) => Math.max(...noise) - Math.min(...noise) > 0.1)
  .map(({ wet, rate, noise }) => {
    const x = noise.map((_, day) => day);
    return { x, response: noise.map((error, day) => decay({ wet, rate }, day) + error) };
  });

const runs = { numRuns: 40 };

function faultOf(call: () => unknown): StatisticsFault | undefined {
  try {
    call();
  } catch (error) {
    if (error instanceof StatisticsError) return error.fault;
    throw error;
  }
  return undefined;
}

function expectClose(found: readonly number[], expected: readonly number[], relative: number): void {
  expect(found.length).toBe(expected.length);
  found.forEach((value, k) => {
    expect(Math.abs(value - expected[k]!)).toBeLessThanOrEqual(relative * Math.abs(expected[k]!));
  });
}

const numbersOf = (fit: ReturnType<typeof nonlinearLeastSquares<'wet' | 'rate', number>>) =>
  fit.parameters.flatMap(({ estimate, standardError, interval }) => [
    estimate,
    standardError,
    interval.lower,
    interval.upper,
  ]);

describe('nonlinearLeastSquares(problem)', () => {
  it('gives what its example prints', () => {
    const fit = nonlinearLeastSquares(drying);
    const printed = fit.parameters.map(({ name, estimate }) => `${name} ${estimate.toFixed(3)}`);
    expect(printed).toEqual(['wet 9.988', 'rate 0.340']);
    const { lower, upper } = profileInterval(fit, 'rate');
    expect([lower.toFixed(3), upper.toFixed(3)]).toEqual(['0.303', '0.380']);
  });

  it('is leastSquares where the model is straight, and the profile is the interval of the standard error', () => {
    const x = [1, 2, 3, 5, 8, 13];
    const response = [2.1, 3.9, 4.2, 9.1, 11.7, 22.9];
    const line = leastSquares(designMatrix([intercept(), covariate('x', x)]), response);
    const fit = nonlinearLeastSquares({
      model: ({ level, slope }, at: number) => level + slope * at,
      x,
      response,
      start: { level: 0, slope: 0 },
    });
    const flat = (list: readonly { readonly estimate: number; readonly standardError: number }[]) =>
      list.flatMap(({ estimate, standardError }) => [estimate, standardError]);
    expectClose(flat(fit.parameters), flat(line.coefficients), 1e-10);
    expectClose([fit.residualSumOfSquares], [line.residualSumOfSquares], 1e-12);
    for (const { name, interval } of fit.parameters) {
      const profile = profileInterval(fit, name);
      expectClose([profile.lower, profile.upper], [interval.lower, interval.upper], 1e-8);
    }
  });

  it('takes derivatives that are given, to the same answer', () => {
    const gradient: NonlinearProblem<'wet' | 'rate', number>['gradient'] = ({ wet, rate }, day) => ({
      wet: Math.exp(-rate * day),
      rate: -wet * day * Math.exp(-rate * day),
    });
    expectClose(
      numbersOf(nonlinearLeastSquares({ ...drying, gradient })),
      numbersOf(nonlinearLeastSquares(drying)),
      1e-10,
    );
  });

  it('scales with the response', () => {
    fc.assert(
      fc.property(noisyDrying, fc.constantFrom(1e-9, 0.01, 7, 1e8), ({ x, response }, factor) => {
        const plain = nonlinearLeastSquares({ ...drying, x, response });
        const start = { wet: 8 * factor, rate: 0.5 };
        const scaled = nonlinearLeastSquares({
          ...drying,
          x,
          response: response.map((value) => value * factor),
          start,
        });
        const expected = numbersOf(plain).map((value, k) => (k < 4 ? value * factor : value));
        expectClose(numbersOf(scaled), expected, 1e-7);
      }),
      runs,
    );
  });

  it('turns a rate round with the unit of x', () => {
    fc.assert(
      fc.property(noisyDrying, fc.constantFrom(1e-6, 1 / 24, 7, 1e5), ({ x, response }, factor) => {
        const plain = nonlinearLeastSquares({ ...drying, x, response });
        const start = { wet: 8, rate: 0.5 / factor };
        const scaled = nonlinearLeastSquares({ ...drying, x: x.map((day) => day * factor), response, start });
        const expected = numbersOf(plain).map((value, k) => (k < 4 ? value : value / factor));
        expectClose(numbersOf(scaled), expected, 1e-7);
      }),
      runs,
    );
  });

  it('does not mind the order of the observations', () => {
    fc.assert(
      fc.property(noisyDrying, fc.shuffledSubarray([0, 1, 2, 3, 4, 5, 6, 7], { minLength: 8 }), (data, order) => {
        const pick = (values: readonly number[]) => order.map((row) => values[row]!);
        const plain = nonlinearLeastSquares({ ...drying, ...data });
        const shuffled = nonlinearLeastSquares({ ...drying, x: pick(data.x), response: pick(data.response) });
        expectClose(numbersOf(shuffled), numbersOf(plain), 1e-8);
        expectClose(shuffled.residuals.map(Math.abs), pick(plain.residuals).map(Math.abs), 1e-5);
      }),
      runs,
    );
  });

  it('recovers the parameters of data without noise', () => {
    const truth = fc.record({
      wet: fc.double({ min: 1, max: 50, noNaN: true }),
      rate: fc.double({ min: 0.05, max: 1, noNaN: true }),
    });
    fc.assert(
      fc.property(truth, ({ wet, rate }) => {
        const x = [0, 0.5, 1, 2, 3, 5, 8];
        const fit = nonlinearLeastSquares({ ...drying, x, response: x.map((day) => decay({ wet, rate }, day)) });
        expectClose([fit.estimates.wet, fit.estimates.rate], [wet, rate], 1e-12);
        expect(fit.residualStandardDeviation).toBeLessThan(1e-13 * wet);
      }),
      runs,
    );
  });

  it('holds a parameter at the bound it would cross, and fits the rest as if it were known', () => {
    const fit = nonlinearLeastSquares({ ...drying, bounds: { rate: { lower: 0.4 } } });
    expect(fit.held).toEqual([{ name: 'rate', bound: 'lower', estimate: 0.4 }]);
    const alone = nonlinearLeastSquares({
      ...drying,
      model: ({ wet }, day: number) => decay({ wet, rate: 0.4 }, day),
      start: { wet: 8 },
    });
    expect(fit.parameters.map(({ name }) => name)).toEqual(['wet']);
    expectClose(
      [fit.estimates.wet, fit.residualSumOfSquares],
      [alone.estimates.wet, alone.residualSumOfSquares],
      1e-10,
    );
    expect(fit.degreesOfFreedom).toBe(3);
  });

  it('is not moved by bounds that the estimates do not reach, and never evaluates the model outside them', () => {
    const seen: number[] = [];
    const model = (parameters: { readonly wet: number; readonly rate: number }, day: number) => {
      seen.push(parameters.rate);
      return decay(parameters, day);
    };
    const fit = nonlinearLeastSquares({ ...drying, model, bounds: { rate: { lower: 0.33, upper: 0.5 } } });
    expectClose(numbersOf(fit), numbersOf(nonlinearLeastSquares(drying)), 1e-9);
    expect(Math.min(...seen)).toBeGreaterThanOrEqual(0.33);
    expect(Math.max(...seen)).toBeLessThanOrEqual(0.5);
  });

  it('takes the least sum of several starts and says what came of each', () => {
    const x = Array.from({ length: 30 }, (_, k) => k);
    const response = x.map((at) => Math.sin(0.7 * at) + (at % 3) / 20);
    const wave = { model: ({ pace }: { readonly pace: number }, at: number) => Math.sin(pace * at), x, response };
    const fit = nonlinearLeastSquares({ ...wave, start: [{ pace: 0.2 }, { pace: 0.69 }, { pace: Number.MAX_VALUE }] });
    expect(fit.estimates.pace).toBeCloseTo(0.7, 2);
    expect(fit.starts.map(({ kind }) => kind)).toEqual(['converged', 'converged', 'failed']);
    const [poor, good] = fit.starts.map((one) => (one.kind === 'converged' ? one.residualSumOfSquares : undefined));
    expect(good).toBe(fit.residualSumOfSquares);
    expect(poor!).toBeGreaterThan(2 * good!);
  });

  it.each<[string, StatisticsFault, () => unknown]>([
    ['more parameters than observations', 'too-many-parameters', () => fitOf({ x: [0, 1], response: [3, 2] })],
    ['lists of unequal length', 'lengths-differ', () => fitOf({ x: [0, 1] })],
    ['a response that is not a number', 'not-finite', () => fitOf({ response: [10, 7, Number.NaN, 3, 1] })],
    ['a start at which the model overflows', 'not-finite', () => fitOf({ start: { wet: 8, rate: -1000 } })],
    ['a start that is not a number', 'not-finite', () => fitOf({ start: { wet: Number.NaN, rate: 1 } })],
    ['no start', 'too-few', () => fitOf({ start: [] })],
    ['a start outside its bounds', 'out-of-range', () => fitOf({ bounds: { wet: { lower: 9 } } })],
    ['bounds that leave nothing', 'out-of-range', () => fitOf({ bounds: { wet: { lower: 8, upper: 8 } } })],
    ['two parameters for one', 'collinear', () => fitOf({ model: (p, day) => p.wet * p.rate * Math.exp(-day) })],
    ['a parameter without influence', 'collinear', () => fitOf({ model: ({ wet }, day) => wet * Math.exp(-day) })],
    [
      'a sum that falls without end',
      'not-converged',
      () =>
        fitOf({
          model: ({ wet, rate }, day) => wet * (1 - Math.exp(-rate * (day + 1))),
          response: [5.2, 4.9, 5, 4.9, 5],
        }),
    ],
    ['a level beyond 1', 'out-of-range', () => nonlinearLeastSquares(drying, { level: 95 })],
  ])('refuses %s: %s', (_, fault, call) => {
    expect(faultOf(call)).toBe(fault);
  });
});

function fitOf(changes: Partial<NonlinearProblem<'wet' | 'rate', number>>) {
  return nonlinearLeastSquares({ ...drying, ...changes });
}

describe('nonlinearLeastSquares(problem) with any numbers at all', () => {
  const number = fc.oneof(
    fc.double(),
    fc.double({ min: -10, max: 10 }),
    fc.constantFrom(0, 1, 1e-320, 1e200, Number.MAX_VALUE),
  );
  const five = fc.array(number, { minLength: 5, maxLength: 5 });

  it('gives finite numbers or a named error', () => {
    fc.assert(
      fc.property(five, five, number, number, (x, response, wet, rate) => {
        try {
          const fit = nonlinearLeastSquares({ ...drying, x, response, start: { wet, rate } });
          const all = [...numbersOf(fit), ...fit.residuals, fit.residualSumOfSquares, fit.residualStandardDeviation];
          expect(all.filter((value) => !Number.isFinite(value))).toEqual([]);
        } catch (error) {
          if (!(error instanceof StatisticsError)) throw error;
        }
      }),
      { numRuns: 300 },
    );
  });
});

describe('profileInterval(fit, name)', () => {
  const fit = nonlinearLeastSquares(drying);

  it('does not depend on how the parameter is expressed', () => {
    const logarithmic = nonlinearLeastSquares({
      ...drying,
      model: ({ wet, logRate }, day: number) => decay({ wet, rate: Math.exp(logRate) }, day),
      start: { wet: 8, logRate: Math.log(0.5) },
    });
    const [plain, turned] = [profileInterval(fit, 'rate'), profileInterval(logarithmic, 'logRate')];
    expectClose([Math.exp(turned.lower), Math.exp(turned.upper)], [plain.lower, plain.upper], 1e-8);
  });

  it('ends at a bound that is not excluded', () => {
    const bounded = nonlinearLeastSquares({ ...drying, bounds: { rate: { lower: 0.335 } } });
    const interval = profileInterval(bounded, 'rate');
    expect(interval.lower).toBe(0.335);
    expectClose([interval.upper], [profileInterval(fit, 'rate').upper], 1e-8);
  });

  it('refuses a side to which the data set no limit', () => {
    const saturated = {
      model: ({ most, rate }: { readonly most: number; readonly rate: number }, day: number) =>
        most * (1 - Math.exp(-rate * day)),
      x: [1, 2, 3, 4],
      response: [4.2, 5.2, 4.9, 5],
      start: { most: 5, rate: 1 },
    };
    expect(faultOf(() => profileInterval(nonlinearLeastSquares(saturated), 'rate'))).toBe('not-converged');
    const bounded = nonlinearLeastSquares({ ...saturated, bounds: { rate: { upper: 20 } } });
    expect(profileInterval(bounded, 'rate').upper).toBe(20);
  });

  it('refuses a fit at one of several least sums, when it meets a lower one', () => {
    // Four observations hold the place near 1, where the fifth fits badly; far below both fit.
    const model = ({ place }: { readonly place: number }, kind: number) =>
      kind === 0 ? 5 * (place - 1) * Math.exp(-((place - 1) ** 2)) : Math.tanh(place);
    const poor = nonlinearLeastSquares({
      model,
      x: [0, 0, 0, 0, 1],
      response: [0.1, -0.1, 0.1, -0.1, -1],
      start: { place: 1 },
    });
    expect(poor.estimates.place).toBeCloseTo(1, 1);
    expect(() => profileInterval(poor, 'place', { level: 0.9999 })).toThrow('there is a lower one');
  });

  it('refuses a fit without residuals', () => {
    const exact = nonlinearLeastSquares({
      model: ({ level }, at: number) => level + at,
      x: [0, 1, 2],
      response: [1, 2, 3],
      start: { level: 1 },
    });
    expect(faultOf(() => profileInterval(exact, 'level'))).toBe('no-variation');
  });

  it.each<[string, StatisticsFault, () => unknown]>([
    ['a name that the fit does not know', 'out-of-range', () => profileInterval(fit, 'depth' as 'wet')],
    ['a level beyond 1', 'out-of-range', () => profileInterval(fit, 'wet', { level: 2 })],
  ])('refuses %s: %s', (_, fault, call) => {
    expect(faultOf(call)).toBe(fault);
  });
});
