import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { type NonlinearProblem, nonlinearLeastSquares, profileInterval } from '../../../../src/statistics/index.js';

type Numbers = Readonly<Record<string, number>>;
type Pairs = Readonly<Record<string, readonly [number, number]>>;

interface ReferenceFit {
  readonly name: string;
  readonly x: number[];
  readonly response: number[];
  readonly start: Numbers;
  readonly level: number;
  readonly estimates: Numbers;
  readonly standardErrors: Numbers;
  readonly residualSumOfSquares: number;
  readonly residualDeviation: number;
  readonly degreesOfFreedom: number;
  readonly profile: Pairs;
  readonly confint: Pairs;
}

const { cases }: { cases: ReferenceFit[] } = JSON.parse(
  readFileSync(new URL('../../../reference/nonlinear/fits.json', import.meta.url), 'utf8'),
);

const models: Readonly<Record<string, NonlinearProblem<string, number>['model']>> = {
  'Puromycin, treated': ({ most, half }, x) => (most! * x) / (half! + x),
  'DNase, run 1': ({ most, middle, scale }, x) => most! / (1 + Math.exp((middle! - Math.log(x)) / scale!)),
  'ChickWeight, chick 7': ({ most, middle, scale }, x) => most! / (1 + Math.exp((middle! - x) / scale!)),
  wtloss: ({ last, lost, half }, x) => last! + lost! * 2 ** (-x / half!),
};

describe.each(cases)('$name, against nls of R', (reference) => {
  const { name, x, response, start, level } = reference;
  const fit = nonlinearLeastSquares({ model: models[name]!, x, response, start }, { level });

  it('nonlinearLeastSquares gives its estimates, standard errors and residual deviation', () => {
    expect(fit.parameters.map((parameter) => parameter.name)).toEqual(Object.keys(start));
    for (const { name: parameter, estimate, standardError } of fit.parameters) {
      // nls stops at a relative offset of 1e-7.
      expect(Math.abs(estimate - reference.estimates[parameter]!)).toBeLessThan(1e-6 * standardError);
      expect(standardError / reference.standardErrors[parameter]!).toBeCloseTo(1, 6);
    }
    expect(fit.residualSumOfSquares / reference.residualSumOfSquares).toBeCloseTo(1, 10);
    expect(fit.residualStandardDeviation / reference.residualDeviation).toBeCloseTo(1, 10);
    expect(fit.degreesOfFreedom).toBe(reference.degreesOfFreedom);
  });

  it.each(Object.keys(start))(
    'profileInterval(fit, "%s") solves the same equation as uniroot over nls',
    (parameter) => {
      const { lower, upper } = profileInterval(fit, parameter, { level });
      const [least, most] = reference.profile[parameter]!;
      const { standardError } = fit.parameters.find((one) => one.name === parameter)!;
      expect(Math.abs(lower - least)).toBeLessThan(1e-6 * standardError);
      expect(Math.abs(upper - most)).toBeLessThan(1e-6 * standardError);
    },
  );

  it.each(Object.keys(start))(
    'profileInterval(fit, "%s") is near confint, which interpolates between fits',
    (parameter) => {
      const { lower, upper } = profileInterval(fit, parameter, { level });
      const [least, most] = reference.confint[parameter]!;
      const { standardError } = fit.parameters.find((one) => one.name === parameter)!;
      expect(Math.abs(lower - least)).toBeLessThan(0.01 * standardError);
      expect(Math.abs(upper - most)).toBeLessThan(0.01 * standardError);
    },
  );
});
