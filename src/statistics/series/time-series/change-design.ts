import type { DesignMatrix } from '../../models/linear/design-matrix.js';

/**
 * The design of a change in level: columns `intercept` and `step`.
 *
 * @param late 1 after the change, 0 before
 * @example stepDesign([0, 0, 1, 1]).columns[1].values // [0, 0, 1, 1]
 */
export function stepDesign(late: readonly number[]): DesignMatrix {
  return {
    columns: [
      { name: 'intercept', values: late.map(() => 1) },
      { name: 'step', values: late },
    ],
  };
}

/**
 * The design of a change in level and in slope, also called segmented regression: columns `intercept`, `time`, `step` (the
 * jump at the change) and `change of slope`.
 *
 * The change some time t after it, against what the earlier trend would have led to, has the weights
 * `{ step: 1, 'change of slope': t }`.
 *
 * @param times in the unit in which slopes are wanted
 * @param late 1 after the change, 0 before
 * @param change when the change came, between the last early and the first late time
 * @example stepAndSlopeDesign([1, 2, 3, 4], [0, 0, 1, 1], 2.5).columns[3].values // [0, 0, 0.5, 1.5]
 * @source Wagner and others 2002, J. Clin. Pharm. Ther. 27:299–309
 */
export function stepAndSlopeDesign(times: readonly number[], late: readonly number[], change: number): DesignMatrix {
  const since = times.map((time) => time - change);
  return {
    columns: [
      ...stepDesign(late).columns,
      { name: 'time', values: since },
      { name: 'change of slope', values: since.map((time, at) => time * late[at]!) },
    ],
  };
}
