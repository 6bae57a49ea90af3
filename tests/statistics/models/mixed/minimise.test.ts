import { describe, expect, it } from 'vitest';
import { minimise } from '../../../../src/statistics/models/mixed/minimise.js';

describe('minimise', () => {
  it('leaves a saddle point that it starts on', () => {
    const evaluate = ([x, y]: Float64Array) => ({
      value: x! ** 4 - x! ** 2 + y! ** 2,
      gradient: Float64Array.of(4 * x! ** 3 - 2 * x!, 2 * y!),
    });
    const { point, value, converged } = minimise(evaluate, Float64Array.of(0, 1));
    expect(converged).toBe(true);
    expect(Math.abs(Math.abs(point[0]!) - Math.SQRT1_2)).toBeLessThan(1e-9);
    expect(Math.abs(point[1]!)).toBeLessThan(1e-9);
    expect(Math.abs(value + 0.25)).toBeLessThan(1e-15);
  });

  it('walks the curved valley of Rosenbrock (1960) to its end', () => {
    const evaluate = ([x, y]: Float64Array) => ({
      value: 100 * (y! - x! * x!) ** 2 + (1 - x!) ** 2,
      gradient: Float64Array.of(-400 * x! * (y! - x! * x!) - 2 * (1 - x!), 200 * (y! - x! * x!)),
    });
    const { point, converged } = minimise(evaluate, Float64Array.of(-1.2, 1));
    expect(converged).toBe(true);
    expect(Math.abs(point[0]! - 1)).toBeLessThan(1e-8);
    expect(Math.abs(point[1]! - 1)).toBeLessThan(1e-8);
  });

  it('says so when there is no minimum', () => {
    const evaluate = ([x]: Float64Array) => ({ value: -x!, gradient: Float64Array.of(-1) });
    expect(minimise(evaluate, Float64Array.of(0)).converged).toBe(false);
  });

  it('ends without convergence where it cannot begin', () => {
    expect(minimise(() => undefined, Float64Array.of(0)).converged).toBe(false);
  });
});
