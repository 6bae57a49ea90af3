import { describe, expect, it } from 'vitest';
import { gaussLegendre } from '../../../../src/statistics/numerics/quadrature/gauss-legendre.js';
import { integrateDecay } from '../../../../src/statistics/numerics/quadrature/integrate-decay.js';
import { integratePeak } from '../../../../src/statistics/numerics/quadrature/integrate-peak.js';

describe('gaussLegendre', () => {
  it.each([2, 5, 16])('gaussLegendre(%i) is exact for powers up to 2n - 1', (points) => {
    const { nodes, weights } = gaussLegendre(points);
    for (let power = 0; power < 2 * points; power++) {
      const sum = nodes.reduce((total, node, i) => total + (weights[i] as number) * node ** power, 0);
      expect(sum).toBeCloseTo(power % 2 === 0 ? 2 / (power + 1) : 0, 14);
    }
  });
});

describe('integrateDecay', () => {
  it('integrates exp(-s) to 1 and exp(-s^2/2) to the square root of pi/2, near to the last digit', () => {
    expect(integrateDecay((s) => Math.exp(-s), 1, Number.POSITIVE_INFINITY)).toBeCloseTo(1, 14);
    const bell = integrateDecay((s) => Math.exp((-s * s) / 2), 1, Number.POSITIVE_INFINITY);
    expect(bell).toBeCloseTo(Math.sqrt(Math.PI / 2), 14);
  });

  it('stops where the function ends', () => {
    expect(integrateDecay((s) => 1 - s, 0.3, 1)).toBeCloseTo(0.5, 14);
  });
});

describe('integratePeak', () => {
  it('finds the peak of a bell far from where it is told to look', () => {
    const bell = (u: number): number => Math.exp(-((u - 7) ** 2) / 2);
    expect(integratePeak(bell, 0, 0.5)).toBeCloseTo(Math.sqrt(2 * Math.PI), 13);
  });

  it('adds a long exponential tail in closed form: exp(u/1000 - exp(u)) gives Gamma(1/1000)', () => {
    const integrand = (u: number): number => Math.exp(u / 1000 - Math.exp(u));
    const area = integratePeak(integrand, -7, 0.5, { below: -45, rate: 1 / 1000 });
    // Gamma(0.001) from R 4.2.2: print(gamma(0.001), digits = 17)
    expect(Math.abs(area / 999.42377248459547 - 1)).toBeLessThan(1e-13);
  });
});
