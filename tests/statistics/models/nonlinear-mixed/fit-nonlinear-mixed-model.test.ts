import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import {
  fitNonlinearMixedModel,
  isStatisticsError,
  type NonlinearMixedModel,
  normalDraws,
  randomStream,
  satterthwaite,
} from '../../../../src/statistics/index.js';
import { expectRelative } from '../../../helpers/expect-relative.js';

interface Case {
  readonly name: string;
  readonly x: readonly number[];
  readonly response: readonly number[];
  readonly group: readonly string[];
  readonly columns: { readonly mississippi?: readonly number[] };
  readonly method: 'reml' | 'ml';
  readonly coefficients: Readonly<Record<string, number>>;
  readonly standardErrors: Readonly<Record<string, number>>;
  readonly deviations: readonly number[] | number;
  readonly residual: number;
  readonly logLikelihood: number;
}

const url = new URL('../../../reference/nonlinear-mixed/nonlinear-mixed.json', import.meta.url);
const { cases }: { readonly cases: readonly Case[] } = JSON.parse(readFileSync(url, 'utf8'));

type Curve = Pick<NonlinearMixedModel<string, number>, 'model' | 'start'> & { readonly random: readonly string[] };

const curves: Readonly<Record<string, Curve>> = {
  Loblolly: {
    model: ({ Asym, R0, lrc }, age) => Asym! + (R0! - Asym!) * Math.exp(-Math.exp(lrc!) * age),
    start: { Asym: 90, R0: 0, lrc: -3 },
    random: ['Asym'],
  },
  Orange: {
    model: ({ Asym, xmid, scal }, age) => Asym! / (1 + Math.exp(-(age - xmid!) / scal!)),
    start: { Asym: 170, xmid: 600, scal: 300 },
    random: ['Asym'],
  },
  CO2: {
    model: ({ Asym, lrc, c0 }, conc) => Asym! * (1 - Math.exp(-Math.exp(lrc!) * (conc - c0!))),
    start: { Asym: 30, lrc: -4.5, c0: 40 },
    random: ['Asym', 'lrc'],
  },
};

function fitted({ name, x, response, group, columns, method }: Case) {
  const { model, start, random } = curves[name.split(/[ ,]/)[0]!]!;
  const ones = { name: '(Intercept)', values: x.map(() => 1) };
  const { mississippi } = columns;
  return fitNonlinearMixedModel({
    model,
    x,
    response,
    ...(mississippi && { fixed: { Asym: { columns: [ones, { name: 'TypeMississippi', values: mississippi }] } } }),
    random: [{ name: 'unit', groups: group, parameters: random }],
    start,
    method,
  });
}

describe('fitNonlinearMixedModel(model)', () => {
  it.each(cases.map((one) => [one.name, one] as const))('gives what R’s nlme gives: %s', (_name, one) => {
    const { straight } = fitted(one);
    const expected = Object.entries(one.coefficients);
    // nlme stops at effects that still move by about 1e-6 of their size.
    straight.coefficients.forEach(({ estimate, standardError }, k) => {
      const [name, value] = expected[k]!;
      expectRelative(estimate, value, 2e-6, name);
      expectRelative(standardError, one.standardErrors[name]!, 2e-5, `error of ${name}`);
    });
    // Printed with seven digits.
    [one.deviations].flat().forEach((value, k) => {
      expectRelative(straight.random[0]?.standardDeviations[k], value, 2e-5, 'deviation');
    });
    const { residual } = straight;
    expectRelative(residual.kind === 'equal' ? residual.standardDeviation : undefined, one.residual, 2e-6);
    expectRelative(straight.logLikelihood, one.logLikelihood, 1e-7, 'log-likelihood');
  });

  it('does not move when the response and its parameters are in another unit', () => {
    const one = cases[0]!;
    const { straight } = fitted(one);
    const { model } = curves.Loblolly!;
    const feet = fitNonlinearMixedModel({
      model,
      x: one.x,
      response: one.response.map((value) => value * 1000),
      random: [{ name: 'unit', groups: one.group, parameters: ['Asym'] }],
      start: { Asym: 80_000, R0: 10, lrc: -2.5 },
      method: 'ml',
    });
    expectRelative(feet.straight.coefficients[0]?.estimate, straight.coefficients[0]!.estimate * 1000, 1e-6);
    expectRelative(feet.straight.coefficients[2]?.estimate, straight.coefficients[2]!.estimate, 1e-6);
  });

  it('refuses what it cannot fit, with the reason', () => {
    const faultOf = (change: Partial<NonlinearMixedModel<string, number>>) => {
      const { x, response, group } = cases[0]!;
      const random = [{ name: 'unit', groups: group, parameters: ['Asym'] }];
      const { model, start } = curves.Loblolly!;
      try {
        fitNonlinearMixedModel({ model, x, response, random, start, method: 'ml', ...change });
      } catch (error) {
        if (isStatisticsError(error)) return error.fault;
        throw error;
      }
      return undefined;
    };
    expect(faultOf({ x: [1, 2] })).toBe('lengths-differ');
    expect(faultOf({ random: [] })).toBe('too-few');
    expect(faultOf({ start: {} })).toBe('too-few');
    expect(faultOf({ random: [{ name: 'unit', groups: ['a'], parameters: ['Asym'] }] })).toBe('lengths-differ');
    expect(faultOf({ model: () => Number.NaN })).toBe('not-finite');
  });

  it('fits 24 walls of 12 stations at 24 visits in under 2 seconds', () => {
    const draws = normalDraws(randomStream(7), 24 * 2 + 24 * 12 + 24 * 12 * 24);
    let next = 0;
    const [x, response, wall, station, arm]: [number[], number[], string[], string[], number[]] = [[], [], [], [], []];
    for (let w = 0; w < 24; w++) {
      const rate = Math.exp(-4.6 + (w % 2) * 0.4 + 0.2 * draws[next++]!);
      const lost = 7 + draws[next++]!;
      for (let s = 0; s < 12; s++) {
        const dry = 3 + draws[next++]!;
        for (let visit = 0; visit < 24; visit++) {
          x.push(15 * visit);
          wall.push(`${w}`);
          station.push(`${w} ${s}`);
          arm.push(w % 2);
          response.push(dry + lost * Math.exp(-rate * 15 * visit) + 0.8 * draws[next++]!);
        }
      }
    }
    const started = performance.now();
    const { straight } = fitNonlinearMixedModel({
      model: ({ dry, lost, logRate }, day: number) => dry + lost * Math.exp(-Math.exp(logRate) * day),
      x,
      response,
      fixed: {
        logRate: {
          columns: [
            { name: 'all', values: x.map(() => 1) },
            { name: 'treated', values: arm },
          ],
        },
      },
      random: [
        { name: 'wall', groups: wall, parameters: ['lost', 'logRate'] },
        { name: 'station', groups: station, parameters: ['dry'] },
      ],
      start: { dry: 2, lost: 8, logRate: -4 },
      method: 'reml',
    });
    const { estimate, interval, degreesOfFreedom } = satterthwaite(straight, { 'logRate: treated': 1 });
    expect(performance.now() - started).toBeLessThan(2000);
    expect(interval.lower).toBeLessThan(0.4);
    expect(interval.upper).toBeGreaterThan(0.4);
    expect(Math.abs(estimate - 0.4)).toBeLessThan(0.25);
    expect(degreesOfFreedom).toBeGreaterThan(18);
    expect(degreesOfFreedom).toBeLessThan(24);
  });
});
