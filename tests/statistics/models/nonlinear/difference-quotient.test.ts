import { describe, expect, it } from 'vitest';
import { differenceQuotients } from '../../../../src/statistics/models/nonlinear/difference-quotient.js';

const open = { down: Number.POSITIVE_INFINITY, up: Number.POSITIVE_INFINITY };

function slopeAt(
  value: (at: number) => number,
  at: number,
  reach: Partial<Parameters<typeof differenceQuotients>[1]> = {},
) {
  const step = Math.abs(at) / 16 || 1e-6;
  const valuesAt = (move: number) => Float64Array.of(value(at + move));
  return differenceQuotients(valuesAt, { step, widest: step, ...open, ...reach })[0]!;
}

describe('differenceQuotients(valuesAt, reach)', () => {
  it.each<[string, (at: number) => number, number, number]>([
    ['exp at 3', Math.exp, 3, Math.exp(3)],
    ['exp at 40, where the first step is far too wide', Math.exp, 40, Math.exp(40)],
    ['sine at 100, over several waves', Math.sin, 100, Math.cos(100)],
    ['logarithm at 1e-8', Math.log, 1e-8, 1e8],
    ['fifth power at -2', (at) => at ** 5, -2, 80],
    ['rational at 0.5', (at) => (1 + at) / (2 - at), 0.5, 3 / 1.5 ** 2],
  ])('%s: ten digits and more', (_, value, at, derivative) => {
    expect(Math.abs(slopeAt(value, at) / derivative - 1)).toBeLessThan(3e-11);
  });

  it('stays on its side of a bound', () => {
    const onlyAbove = (at: number) => (at >= 2 ? Math.exp(at) : Number.NaN);
    expect(Math.abs(slopeAt(onlyAbove, 2, { down: 0 }) / Math.exp(2) - 1)).toBeLessThan(1e-9);
    const onlyBelow = (at: number) => (at <= 2 ? Math.exp(at) : Number.NaN);
    expect(Math.abs(slopeAt(onlyBelow, 2, { up: 0 }) / Math.exp(2) - 1)).toBeLessThan(1e-9);
  });

  it('shortens a step that leaves the domain', () => {
    expect(Math.abs(slopeAt(Math.log, 1, { step: 4 }) - 1)).toBeLessThan(1e-10);
  });

  it('widens a step that does not show, next to zero', () => {
    const slope = slopeAt((at) => 5 + Math.sin(at), 1e-30, { step: 1e-31, widest: 1 / 16 });
    expect(Math.abs(slope - 1)).toBeLessThan(1e-9);
  });

  it('takes for each value the step that suits it', () => {
    const valuesAt = (move: number) => Float64Array.of(Math.sin(200 * (1 + move)), 3 * (1 + move));
    const [fast, slow] = differenceQuotients(valuesAt, { step: 1 / 16, widest: 1 / 16, ...open });
    expect(Math.abs(fast! / (200 * Math.cos(200)) - 1)).toBeLessThan(1e-8);
    expect(Math.abs(slow! - 3)).toBeLessThan(1e-12);
  });
});
