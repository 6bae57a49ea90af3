import { checkLevel, checkSample } from '../../checked-input.js';
import { normal } from '../../distributions/normal.js';
import type { Interval } from '../../interval.js';
import type { GroupSizes, LevelOption } from '../comparison/mean-comparison.js';

export interface ProbabilityOfSuperiority {
  readonly kind: 'probability-of-superiority';
  readonly estimate: number;
  readonly interval: Interval;
  readonly n: GroupSizes;
}

/**
 * How probable it is that a value from x is smaller than one from y, ties counting half: P(x < y) + P(x = y)/2, the
 * Mann-Whitney statistic over its largest value. 0.5 means no tendency either way. For "x is larger" swap the groups.
 *
 * The interval is Newcombe's method 5 (2006, Stat. Med. 25:559-573): all values t with |estimate - t| <= z sqrt(V(t)),
 * V(t) = t (1 - t) [1 + h (1 - t)/(2 - t) + h t/(1 + t)] / (nx ny), h = (nx + ny)/2 - 1. Like Wilson's interval it takes
 * the variance at the limit, so it stays inside 0 to 1 and has width even where the groups are wholly apart. It is
 * approximate with very few values.
 *
 * @throws StatisticsError `too-few` when a group is empty, `not-finite`, `out-of-range` for the level
 * @example probabilityOfSuperiority([-3.1, -1.8, -2.6, -2.2], [-1.2, -2.0, -0.6, -1.4]).estimate // 15/16
 */
export function probabilityOfSuperiority(
  x: readonly number[],
  y: readonly number[],
  options: LevelOption = {},
): ProbabilityOfSuperiority {
  const level = options.level ?? 0.95;
  checkLevel('probabilityOfSuperiority', level);
  checkSample('probabilityOfSuperiority', 'x', x, 1);
  checkSample('probabilityOfSuperiority', 'y', y, 1);
  const estimate = shareBelow(x, y);
  const z = normal().upperQuantile((1 - level) / 2);
  const outside = (t: number): boolean => (t - estimate) ** 2 > z ** 2 * varianceAt(t, x.length, y.length);
  return {
    kind: 'probability-of-superiority',
    estimate,
    interval: { level, lower: edge(0, estimate, outside), upper: edge(1, estimate, outside) },
    n: { x: x.length, y: y.length },
  };
}

/** The share of pairs in which x is smaller, ties counting half. */
function shareBelow(x: readonly number[], y: readonly number[]): number {
  let halves = 0;
  for (const one of x) {
    for (const other of y) halves += one < other ? 2 : one === other ? 1 : 0;
  }
  return halves / (2 * x.length * y.length);
}

function varianceAt(t: number, nx: number, ny: number): number {
  const h = (nx + ny) / 2 - 1;
  return (t * (1 - t) * (1 + (h * (1 - t)) / (2 - t) + (h * t) / (1 + t))) / (nx * ny);
}

/** Where the interval ends between an end of the scale and the estimate, by halving to the last bit. */
function edge(end: number, estimate: number, outside: (t: number) => boolean): number {
  if (end === estimate) return end;
  let [far, near] = [end, estimate];
  for (let halving = 0; halving < 1100; halving++) {
    const middle = (far + near) / 2;
    if (middle === far || middle === near) break;
    if (outside(middle)) far = middle;
    else near = middle;
  }
  return near;
}
