import { checkLevel } from '../../checked-input.js';
import type { Interval } from '../../interval.js';
import type { TwoByTwo } from './fisher-exact.js';
import { proportion } from './proportion-interval.js';

export interface RiskDifference {
  readonly kind: 'risk-difference';
  /** Share of `x` that have it, less the share of `y`. */
  readonly estimate: number;
  readonly interval: Interval;
  readonly shares: { readonly x: number; readonly y: number };
}

/**
 * Difference of two shares, such as of treated and untreated walls that are dry: limits that put Wilson's limits of the two shares
 * together, √((p₁ − l₁)² + (u₂ − p₂)²) below and √((u₁ − p₁)² + (p₂ − l₂)²) above. Unlike the usual limits by
 * the normal curve they hold with few units and stay within −1 and 1.
 *
 * @throws StatisticsError as `proportion`
 * @example riskDifference({ x: { having: 56, not: 14 }, y: { having: 48, not: 32 } }).interval // { level: 0.95, lower: 0.05243, upper: 0.33387 }
 * @source Newcombe 1998, Statistics in Medicine 17:873-890, method 10; the example is his first
 */
export function riskDifference({ x, y }: TwoByTwo, { level = 0.95 }: { readonly level?: number } = {}): RiskDifference {
  checkLevel('riskDifference', level);
  const [one, other] = [x, y].map(({ having, not }) => proportion(having, having + not, { level })) as [
    ReturnType<typeof proportion>,
    ReturnType<typeof proportion>,
  ];
  const [p, q] = [one.estimate, other.estimate];
  const estimate = p - q;
  const lower = estimate - Math.hypot(p - one.interval.lower, other.interval.upper - q);
  const upper = estimate + Math.hypot(one.interval.upper - p, q - other.interval.lower);
  return { kind: 'risk-difference', estimate, interval: { level, lower, upper }, shares: { x: p, y: q } };
}
