import { describe, expect, it } from 'vitest';
import { leastSquares, type MixedModel, normalDraws, randomStream } from '../../../../src/statistics/index.js';
import { checkedGroupings } from '../../../../src/statistics/models/mixed/check-mixed-model.js';
import { deviance } from '../../../../src/statistics/models/mixed/deviance.js';
import { devianceProblem } from '../../../../src/statistics/models/mixed/deviance-problem.js';
import { eliminationOrder } from '../../../../src/statistics/models/mixed/elimination-order.js';
import { expectRelative } from '../../../helpers/expect-relative.js';

/** Readings of each station, wall by wall; every other wall treated. */
function problemOf(walls: readonly (readonly number[])[], residual?: MixedModel['residual']) {
  const stations = walls.flatMap((counts, wall) =>
    counts.map((readings, at) => ({ wall, name: `${wall}-${at}`, readings })),
  );
  const rows = stations.flatMap(({ wall, name, readings }) => Array.from({ length: readings }, () => ({ wall, name })));
  const response = Array.from(normalDraws(randomStream(20240606), rows.length));
  const model: MixedModel = {
    response,
    fixed: {
      columns: [
        { name: 'intercept', values: rows.map(() => 1) },
        { name: 'arm', values: rows.map(({ wall }) => wall % 2) },
      ],
    },
    random: [
      { name: 'wall', groups: rows.map(({ wall }) => wall) },
      { name: 'station', groups: rows.map(({ name }) => name) },
    ],
    method: 'reml',
    ...(residual && { residual }),
  };
  return devianceProblem(model, checkedGroupings(model), leastSquares(model.fixed, response), 1);
}

const unequal = [
  [3, 3, 2, 3, 2],
  [3, 2, 3],
  [2, 2, 4],
  [3, 3, 3],
];

describe('eliminationOrder', () => {
  it('takes stations together that have as many readings in the same wall, and leaves the others and the walls by themselves', () => {
    const { order, layout } = problemOf(unequal);
    expect(order.alike.map(({ levels }) => levels)).toEqual([
      [0, 1, 3],
      [2, 4],
      [5, 7],
      [8, 9],
      [11, 12, 13],
    ]);
    expect([...order.single].slice(0, 2)).toEqual([6, 10]);
    const together = order.alike.flatMap(({ levels }) => levels).length;
    expect(together + order.single.length).toBe(layout.frontLevels);
  });

  it('changes neither the deviance nor its gradient: against every level by itself', () => {
    const problem = problemOf(unequal);
    const apart = { ...problem, order: eliminationOrder(problem.layout, undefined) };
    expect(apart.order.alike).toEqual([]);
    for (const point of [Float64Array.of(0.7, 1.3), Float64Array.of(0, 0.4), Float64Array.of(5, 0)]) {
      const [one, other] = [deviance(problem, point), deviance(apart, point)];
      expectRelative(one?.deviance, other?.deviance ?? Number.NaN, 1e-13);
      for (const at of point.keys())
        expect(Math.abs((one?.gradient[at] ?? 1) - (other?.gradient[at] ?? 0))).toBeLessThan(1e-11);
    }
  });

  it('takes nothing together where products change with the residuals', () => {
    const counts = [
      [3, 3],
      [3, 3],
      [3, 3],
    ];
    const series = counts.flatMap((wall, at) =>
      wall.flatMap((readings, own) => Array<string>(readings).fill(`${at}-${own}`)),
    );
    const steps = counts.flatMap((wall) =>
      wall.flatMap((readings) => Array.from({ length: readings }, (_, step) => step)),
    );
    expect(problemOf(counts).order.alike.length).toBe(3);
    expect(problemOf(counts, { kind: 'autoregressive', series, steps }).order.alike).toEqual([]);
  });
});
