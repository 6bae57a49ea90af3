import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  autoregressiveContrast,
  autoregressiveLeastSquares,
  averagedContrast,
  averagedIntervals,
  isStatisticsError,
  neweyWestContrast,
  placeboDates,
  type SeriesRegression,
  stepAndSlopeDesign,
  stepDesign,
} from '../../../../src/statistics/index.js';
import { expectRelative } from '../../../helpers/expect-relative.js';

interface Case {
  readonly name: string;
  readonly response: readonly number[];
  readonly times: readonly number[];
  readonly columns: readonly (readonly number[])[];
  readonly weights: readonly number[];
  readonly correlation: number;
  readonly residualVariance: number;
  readonly coefficients: readonly number[];
  readonly logLikelihood: number;
  readonly kenwardRoger: { readonly standardError: number; readonly degreesOfFreedom: number };
  readonly averaged: { estimate: number; lower: number; upper: number; pValue: number; correlation: number };
  readonly neweyWestError: number;
}

const { cases } = JSON.parse(
  readFileSync(new URL('../../../reference/time-series/time-series.json', import.meta.url), 'utf8'),
) as { readonly cases: readonly Case[] };

function seriesOf({ columns, response, times }: Case): SeriesRegression {
  return { design: { columns: columns.map((values, k) => ({ name: `c${k}`, values })) }, response, times };
}

function weightsOf({ weights }: Case) {
  return Object.fromEntries(weights.flatMap((weight, k) => (weight === 0 ? [] : [[`c${k}`, weight]])));
}

function faultOf(call: () => unknown) {
  try {
    call();
  } catch (error) {
    return isStatisticsError(error) ? error.fault : error;
  }
  return 'no fault';
}

const late = [0, 0, 0, 0, 0, 0, 1, 1, 1, 1, 1, 1];
const values = [5.1, 5.4, 5.2, 4.9, 5.0, 5.3, 4.4, 4.2, 4.5, 4.7, 4.1, 4.3];
const days = [0, 31, 59, 92, 120, 153, 182, 215, 240, 275, 303, 336];
const series: SeriesRegression = { design: stepDesign(late), response: values, times: days };

describe.each(cases.map((one) => [one.name, one] as const))('against R: %s', (_name, one) => {
  // The optimiser of nlme stops within about 1e-7 of the best correlation.
  it('autoregressiveLeastSquares matches gls of nlme by restricted likelihood', () => {
    const found = autoregressiveLeastSquares(seriesOf(one));
    expectRelative(found.correlation, one.correlation, 1e-6);
    expectRelative(found.residualVariance, one.residualVariance, 2e-6);
    expectRelative(found.logLikelihood, one.logLikelihood, 1e-11);
    one.coefficients.forEach((value, k) => {
      expectRelative(found.fit.coefficients[k]?.estimate, value, 1e-5);
    });
  });

  it('autoregressiveContrast matches the formulas of Kenward and Roger on whole matrices', () => {
    const found = autoregressiveContrast(autoregressiveLeastSquares(seriesOf(one)), weightsOf(one));
    expectRelative(found.standardError, one.kenwardRoger.standardError, 5e-6);
    expectRelative(found.degreesOfFreedom, one.kenwardRoger.degreesOfFreedom, 5e-6);
  });

  it('averagedContrast matches integrate() over the autocorrelation', () => {
    const { estimate, interval, pValue, correlation } = averagedContrast(seriesOf(one), weightsOf(one));
    expectRelative(estimate, one.averaged.estimate, 1e-6);
    expectRelative(interval.lower, one.averaged.lower, 1e-6);
    expectRelative(interval.upper, one.averaged.upper, 1e-6);
    expectRelative(pValue, one.averaged.pValue, 1e-6);
    expectRelative(correlation, one.averaged.correlation, 1e-6);
  });

  it('neweyWestContrast matches the sum of weighted autocovariances', () => {
    const { design, response } = seriesOf(one);
    const { standardError } = neweyWestContrast(design, response, weightsOf(one), { seed: 1, draws: 20 });
    expectRelative(standardError, one.neweyWestError, 1e-9);
  });
});

describe('neweyWestContrast', () => {
  it('neweyWestContrast finds Kiefer and Vogelsang’s critical values for the mean of a long series', () => {
    // Their Table 1, Bartlett kernel, 97.5 % and 95 %, as several public programs for comparing forecasts carry its coefficients, digit
    // for digit alike (the table itself was not read); 3,000 draws err by some 2 %, and the cubic is a fit to their own draws.
    const published = [
      { level: 0.95, at: (b: number) => 1.96 + 2.9694 * b + 0.416 * b ** 2 - 0.5324 * b ** 3 },
      { level: 0.9, at: (b: number) => 1.6449 + 2.1859 * b + 0.3142 * b ** 2 - 0.3427 * b ** 3 },
    ];
    const response = Array.from({ length: 160 }, (_, at) => Math.sin(at));
    const design = { columns: [{ name: 'mean', values: response.map(() => 1) }] };
    for (const { level, at } of published) {
      for (const bandwidth of [0.1, 0.5, 1]) {
        const options = { seed: 5, level, bandwidth, draws: 3_000 };
        const { criticalValue } = neweyWestContrast(design, response, { mean: 1 }, options);
        expectRelative(criticalValue, at(bandwidth), 0.06, `${level}, bandwidth ${bandwidth}`);
      }
    }
  });

  it('neweyWestContrast gives the same for the same seed, and its p-value agrees with its interval', () => {
    const once = neweyWestContrast(series.design, values, { step: 1 }, { seed: 3, draws: 999 });
    expect(neweyWestContrast(series.design, values, { step: 1 }, { seed: 3, draws: 999 })).toEqual(once);
    expect(once.pValue < 0.05).toBe(once.interval.upper < 0);
    expect(once.pValue).toBeGreaterThanOrEqual(1 / 1_000);
  });
});

describe('autocorrelated series', () => {
  it('averagedContrast and autoregressiveContrast move with shift and scale, and not with the unit of time', () => {
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: -1, max: 1, noNaN: true }), { minLength: 12, maxLength: 12 }),
        fc.constantFrom(-40, 0, 3, 1e4),
        fc.constantFrom(1e-3, 1, 60),
        fc.constantFrom(1 / 7, 24),
        (noise, shift, scale, clock) => {
          const response = values.map((value, at) => value + noise[at]!);
          const moved = {
            ...series,
            response: response.map((value) => shift + scale * value),
            times: days.map((day) => clock * day),
          };
          const [plain, other] = [{ ...series, response }, moved].map((one) => averagedContrast(one, { step: 1 }));
          expectRelative(other!.interval.lower, scale * plain!.interval.lower, 1e-6);
          expectRelative(other!.interval.upper, scale * plain!.interval.upper, 1e-6);
          expect(other!.correlation).toBeCloseTo(plain!.correlation, 7);
        },
      ),
      { numRuns: 15 },
    );
  });

  it('averagedContrast of a series read backwards is the same change the other way', () => {
    const forwards = averagedContrast(series, { step: 1 });
    const backwards = averagedContrast(
      { design: series.design, response: values.toReversed(), times: days.toReversed().map((day) => -day) },
      { step: 1 },
    );
    expectRelative(backwards.interval.lower, -forwards.interval.upper, 1e-9);
    expectRelative(backwards.estimate, -forwards.estimate, 1e-9);
    expect(forwards.interval.lower).toBeLessThan(forwards.estimate);
    expect(forwards.interval.upper).toBeGreaterThan(forwards.estimate);
  });

  it('averagedIntervals are those of averagedContrast, level by level', () => {
    const levels = [0.5, 0.95];
    expect(averagedIntervals(series, { step: 1 }, levels)).toEqual(
      levels.map((level) => averagedContrast(series, { step: 1 }, { level }).interval),
    );
    expect(() => averagedIntervals(series, { step: 1 }, [0.5, 1])).toThrow(
      expect.objectContaining({ fault: 'out-of-range' }),
    );
  });

  it('averagedContrast is wider at a higher level, and its p-value meets its interval', () => {
    const { pValue } = averagedContrast(series, { step: 1 });
    const { interval } = averagedContrast(series, { step: 1 }, { level: 1 - pValue });
    expect(interval.upper).toBeCloseTo(0, 8);
    expect(interval.lower).toBeLessThan(averagedContrast(series, { step: 1 }, { level: 0.5 }).interval.lower);
  });

  it('stepAndSlopeDesign finds a step and a change of slope exactly where there is little else', () => {
    const times = Array.from({ length: 12 }, (_, at) => at);
    const response = times.map(
      (time) => 3 + 0.1 * time + (time > 5.5 ? -1 - 0.2 * (time - 5.5) : 0) + 1e-6 * Math.cos(9 * time),
    );
    const fit = { design: stepAndSlopeDesign(times, late, 5.5), response, times };
    expect(averagedContrast(fit, { step: 1 }).estimate).toBeCloseTo(-1, 5);
    expect(averagedContrast(fit, { 'change of slope': 1 }).estimate).toBeCloseTo(-0.2, 5);
    expect(averagedContrast(fit, { time: 1 }).estimate).toBeCloseTo(0.1, 5);
    expect(averagedContrast(fit, { step: 1, 'change of slope': 3 }).estimate).toBeCloseTo(-1.6, 5);
  });

  it('placeboDates tries every date with four values on both sides and finds a change that is there', () => {
    const dates = placeboDates(values, days);
    expect(dates.map(({ from }) => from)).toEqual([4, 5, 6, 7, 8]);
    expect(placeboDates(values, days, { most: 3 }).map(({ from }) => from)).toEqual([4, 6, 8]);
    expect(dates.find(({ from }) => from === 6)).toMatchObject({
      isAlarm: true,
      interval: averagedContrast(series, { step: 1 }).interval,
    });
    expect(placeboDates(values.slice(0, 6).concat([5.0, 5.2]), days.slice(0, 8)).map(({ isAlarm }) => isAlarm)).toEqual(
      [false],
    );
  });

  it('autocorrelated series are refused where there is no answer, with the fault that says why', () => {
    const averaged = (one: Partial<SeriesRegression>) =>
      faultOf(() => averagedContrast({ ...series, ...one }, { step: 1 }));
    expect(averaged({ times: days.slice(1) })).toBe('lengths-differ');
    expect(averaged({ times: days.map(() => 1) })).toBe('out-of-range');
    expect(averaged({ times: days.with(3, Number.NaN) })).toBe('out-of-range');
    expect(averaged({ response: values.with(2, Number.NaN) })).toBe('not-finite');
    expect(averaged({ response: late })).toBe('no-variation');
    expect(averaged({ design: stepDesign(values.map(() => 1)) })).toBe('collinear');
    expect(faultOf(() => averagedContrast(series, { jump: 1 }))).toBe('out-of-range');
    expect(faultOf(() => averagedContrast(series, { step: 1 }, { level: 1 }))).toBe('out-of-range');
    expect(faultOf(() => placeboDates(values.slice(0, 7), days.slice(0, 7)))).toBe('too-few');
    expect(faultOf(() => neweyWestContrast(series.design, values, { step: 1 }, { seed: 1, draws: 10 }))).toBe(
      'out-of-range',
    );
    expect(faultOf(() => neweyWestContrast(series.design, values, { step: 1 }, { seed: 1, bandwidth: 0 }))).toBe(
      'out-of-range',
    );
    const climbing = values.map((_, at) => 0.1 * at ** 2);
    expect(faultOf(() => autoregressiveLeastSquares({ ...series, response: climbing }))).toBe('not-converged');
  });

  it('autoregressiveLeastSquares gives the number of its example', () => {
    expect(autoregressiveLeastSquares(series).correlation.toFixed(2)).toBe('-0.02');
  });
});
