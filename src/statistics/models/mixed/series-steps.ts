import type { Grouping } from './grouping.js';

/** Two observations of one series that follow one another. */
export interface Step {
  readonly earlier: number;
  readonly later: number;
  readonly gap: number;
}

/** Neighbours in each series, by their step numbers. */
export function seriesSteps(series: Grouping, steps: readonly number[]): Step[] {
  const order = Array.from(steps.keys()).sort((a, b) => series.codes[a]! - series.codes[b]! || steps[a]! - steps[b]!);
  return order.slice(1).flatMap((later, at) => {
    const earlier = order[at]!;
    if (series.codes[earlier] !== series.codes[later]) return [];
    return [{ earlier, later, gap: steps[later]! - steps[earlier]! }];
  });
}
