import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { changeStillToCome_pct, massStillToLose } from '../../../src/moisture/index.js';

const at = (...rows: [number, number][]) => rows.map(([time_h, mass_g]) => ({ time_h, mass_g }));

describe('massStillToLose', () => {
  it('is 0.6 g after losses of 1.2 and 0.6 g over equal intervals, worked by hand: 0.6²/(1.2 − 0.6)', () => {
    expect(massStillToLose(at([0, 52], [4, 50.8], [8, 50.2]))).toEqual({
      kind: 'extrapolated',
      mass_g: expect.closeTo(0.6, 9),
    });
  });

  it('finds the end of any exponential, at equal and unequal times, by construction', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 2, max: 40, noNaN: true }),
        fc.double({ min: 0.1, max: 5, noNaN: true }),
        fc.tuple(...[1, 2].map(() => fc.double({ min: 1, max: 30, noNaN: true }))),
        (tau_h, water_g, [first, second]) => {
          const mass = (time: number) => 50 + water_g * Math.exp(-time / tau_h);
          const times = [0, first as number, (first as number) + (second as number)];
          const rest = massStillToLose(times.map((time_h) => ({ time_h, mass_g: mass(time_h) })));
          const left = mass(times[2] as number) - 50;
          // Masses of some 50 g carry 1e-14 of themselves into differences that may be 1e-6 g.
          if (rest.kind === 'extrapolated') expect(Math.abs(rest.mass_g - left)).toBeLessThan(1e-6 + 1e-3 * left);
          else expect(left).toBeLessThan(1e-9);
        },
      ),
    );
  });

  it('is more than the last change where weighings follow closely: losses of 0.20 and 0.19 g leave 3.61 g', () => {
    expect(massStillToLose(at([0, 50.39], [1, 50.19], [2, 50]))).toMatchObject({ mass_g: expect.closeTo(3.61, 6) });
  });

  it.each([
    ['two weighings', at([0, 50.1], [1, 50]), 'too-few-weighings'],
    ['losses that do not slow down', at([0, 50.2], [1, 50.1], [2, 50]), 'loss-not-slowing'],
    ['the same loss in half the time', at([0, 50.2], [2, 50.1], [3, 50]), 'loss-not-slowing'],
    ['a gain at the end', at([0, 50.2], [1, 50], [2, 50.1]), 'gained-mass'],
  ])('is not known from %s', (_, weighings, because) => {
    expect(massStillToLose(weighings)).toEqual({ kind: 'not-known', because });
  });

  it('is nothing after no change, uses the last three weighings alone, and refuses times that do not increase', () => {
    expect(massStillToLose(at([0, 50.2], [1, 50], [2, 50]))).toEqual({ kind: 'extrapolated', mass_g: 0 });
    expect(massStillToLose(at([0, 90], [1, 50.2], [2, 50], [3, 50]))).toEqual({ kind: 'extrapolated', mass_g: 0 });
    expect(() => massStillToLose(at([0, 51], [2, 50.4], [2, 50.2]))).toThrow(/in order of time/);
    expect(() => massStillToLose(at([0, 51], [2, Number.NaN], [3, 50.2]))).toThrow(/finite mass/);
  });
});

describe('changeStillToCome_pct(last, before)', () => {
  it.each([
    [0.3, 0.5, 0.45],
    [0.05, 0.4, 0.0025 / 0.35],
    [0, 0.4, 0],
    [0, 0, 0],
  ])('%f %% after %f %% leaves %f %%, worked by hand: c₂²/(c₁ − c₂)', (last, before, left) => {
    expect(changeStillToCome_pct(last, before)).toBeCloseTo(left, 12);
  });

  it('is not known where the loss did not slow down, and refuses a gain', () => {
    expect(changeStillToCome_pct(0.3, 0.3)).toBeUndefined();
    expect(changeStillToCome_pct(0.3, 0.2)).toBeUndefined();
    expect(() => changeStillToCome_pct(-0.1, 0.2)).toThrow(/0 % or more/);
  });
});
