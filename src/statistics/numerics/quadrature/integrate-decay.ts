import { gaussLegendre } from './gauss-legendre.js';

const rule = gaussLegendre(16);

/**
 * Integral from 0 upward of a smooth positive function that starts at 1 and dies away over about the given scale.
 *
 * Panels of four scales by a 16-point Gauss-Legendre rule, each new one until it no longer counts: exact to rounding
 * for functions like exp(-s) or exp(-s^2/2).
 *
 * @param end where the function ends, if it does before dying away
 */
export function integrateDecay(f: (s: number) => number, scale: number, end: number): number {
  const halfPanel = 2 * scale;
  let total = 0;
  for (let start = 0; start < end; start += 2 * halfPanel) {
    const half = Math.min(halfPanel, (end - start) / 2);
    let panel = 0;
    for (let i = 0; i < rule.nodes.length; i++) {
      panel += (rule.weights[i] as number) * f(start + half * (1 + (rule.nodes[i] as number)));
    }
    total += half * panel;
    if (!(half * panel > 1e-17 * total)) break;
  }
  return total;
}
