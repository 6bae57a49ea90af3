import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  type Answer,
  bootstrapDifference,
  type ComparisonDesign,
  clusterRobustDifference,
  comparisonDesign,
  type Estimate,
  mixedModel,
  primaryDifference,
  type Side,
  type StationChange,
  type WallChange,
} from '../../src/analysis/index.js';

const options = { level: 0.95, unit: '% by mass', seed: 7 };

interface Nested {
  readonly design: ComparisonDesign;
  readonly stations: readonly StationChange[];
}

/** Walls with the given changes at each of their stations. */
function nested(
  walls: readonly { readonly side: Side; readonly block?: string; readonly changes: readonly number[] }[],
): Nested {
  const names = walls.map((_, index) => `W${index}`);
  const stations = walls.flatMap(({ changes }, index) =>
    changes.map((change, at) => ({ wall: names[index] ?? '', station: `${at}`, before: 8, after: 8 + change })),
  );
  const changes = walls.map(({ side, block = '', changes: list }, index): WallChange => {
    const change = list.reduce((sum, one) => sum + one, 0) / list.length;
    return {
      wall: names[index] ?? '',
      arm: side,
      side,
      block,
      before: 8,
      after: 8 + change,
      change,
      stations: list.length,
      places: 'same',
    };
  });
  return { design: comparisonDesign(changes).design, stations };
}

function estimateOf(answer: Answer): Estimate {
  if (answer.kind === 'not-estimated') throw new Error(answer.notEstimated.reason.code);
  return answer.estimate;
}

const treated = [
  [-4.1, -3.2, -5.0],
  [-2.2, -1.9, -3.1],
  [-3.5, -4.4, -2.9],
  [-1.2, -2.8, -2.0],
];
const untreated = [
  [-0.4, 0.9, -1.0],
  [-1.9, -0.8, -1.6],
  [0.6, -0.3, 0.8],
  [-0.9, -1.7, 0.1],
];
const free = nested([
  ...treated.map((changes) => ({ side: 'treated' as const, changes })),
  ...untreated.map((changes) => ({ side: 'untreated' as const, changes })),
]);
const paired = nested([
  ...treated.map((changes, index) => ({ side: 'treated' as const, block: `B${index}`, changes })),
  ...untreated.map((changes, index) => ({ side: 'untreated' as const, block: `B${index}`, changes })),
]);

describe('mixedModel, clusterRobustDifference and bootstrapDifference', () => {
  it.each([
    ['free', free],
    ['paired', paired],
  ] as const)(
    'agree with the primary estimate where every wall has as many stations: %s walls',
    (_, { design, stations }) => {
      const primary = primaryDifference(design, options);
      if (primary.kind !== 'estimated') throw new Error(primary.reason.code);
      for (const answer of [
        mixedModel(design, stations, options),
        clusterRobustDifference(design, stations, options),
        bootstrapDifference(design, options),
      ])
        expect(estimateOf(answer).estimate).toBeCloseTo(primary.estimate.estimate, 8);
    },
  );

  it('bootstrapDifference studentises from five walls an arm and outside blocks, and takes BCa else', () => {
    const walls = (count: number, blockOf: (index: number) => string | undefined) => {
      return nested(
        Array.from({ length: 2 * count }, (_, index) => ({
          side: index % 2 === 0 ? ('treated' as const) : ('untreated' as const),
          ...(blockOf(index) !== undefined && { block: blockOf(index) ?? '' }),
          changes: [Math.sin(index * 2.3) - (index % 2 === 0 ? 1 : 0)],
        })),
      ).design;
    };
    const methodOf = (design: Nested['design']) => estimateOf(bootstrapDifference(design, options)).method;
    expect(methodOf(walls(5, () => undefined))).toMatchObject({ limits: 'studentised', draws: 9_999, drawn: 'units' });
    expect(methodOf(walls(5, (index) => `B${index >> 1}`))).toMatchObject({ limits: 'studentised', drawn: 'pairs' });
    expect(methodOf(walls(4, () => undefined))).toMatchObject({ limits: 'bca', drawn: 'units' });
    expect(methodOf(walls(4, (index) => `B${index >> 1}`))).toMatchObject({ limits: 'bca', drawn: 'pairs' });
    expect(methodOf(walls(12, (index) => `B${index >> 2}`))).toMatchObject({ limits: 'bca', drawn: 'units' });
  });

  it('give the balanced mixed model the pooled t test of wall means: theory of the balanced nested design', () => {
    const { standardError, degreesOfFreedom } = estimateOf(mixedModel(free.design, free.stations, options));
    const means = (list: readonly (readonly number[])[]) =>
      list.map((changes) => changes.reduce((sum, one) => sum + one, 0) / 3);
    const squares = (values: readonly number[]) => {
      const centre = values.reduce((sum, one) => sum + one, 0) / values.length;
      return values.reduce((sum, one) => sum + (one - centre) ** 2, 0);
    };
    const pooled = (squares(means(treated)) + squares(means(untreated))) / 6;
    expect(standardError).toBeCloseTo(Math.sqrt(pooled / 2), 6);
    expect(degreesOfFreedom).toBeCloseTo(6, 5);
  });

  it('never grow more certain because stations are read more often: each station three times over', () => {
    const thrice = ({ design, stations }: Nested): Nested => ({
      design,
      stations: stations.flatMap((one) => [1, 2, 3].map((copy) => ({ ...one, station: `${one.station}.${copy}` }))),
    });
    for (const analysis of [mixedModel, clusterRobustDifference]) {
      const once = estimateOf(analysis(free.design, free.stations, options));
      const again = estimateOf(analysis(free.design, thrice(free).stations, options));
      expect(again.standardError).toBeCloseTo(once.standardError ?? 0, 5);
      expect(again.degreesOfFreedom).toBeCloseTo(once.degreesOfFreedom ?? 0, 4);
    }
  });

  it('follow a shift of the treated walls and a change of unit', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -5, max: 5, noNaN: true }),
        fc.double({ min: 0.1, max: 10, noNaN: true }),
        (shift, scale) => {
          const moved = nested([
            ...treated.map((changes) => ({
              side: 'treated' as const,
              changes: changes.map((one) => scale * (one + shift)),
            })),
            ...untreated.map((changes) => ({ side: 'untreated' as const, changes: changes.map((one) => scale * one) })),
          ]);
          const pairs = [
            [mixedModel(free.design, free.stations, options), mixedModel(moved.design, moved.stations, options)],
            [
              clusterRobustDifference(free.design, free.stations, options),
              clusterRobustDifference(moved.design, moved.stations, options),
            ],
            [bootstrapDifference(free.design, options), bootstrapDifference(moved.design, options)],
          ] as const;
          for (const [one, other] of pairs) {
            expect(estimateOf(other).estimate).toBeCloseTo(scale * (estimateOf(one).estimate + shift), 5);
            expect(estimateOf(other).interval?.lower).toBeCloseTo(
              scale * ((estimateOf(one).interval?.lower ?? 0) + shift),
              4,
            );
          }
        },
      ),
      { numRuns: 20 },
    );
  });

  it('clusterRobustDifference is weak below 4 degrees of freedom: 3.4 are, 4 and 4.45 are not (Satterthwaite by hand)', () => {
    const found = (of: readonly (readonly number[])[], against: readonly (readonly number[])[]) => {
      const { design, stations } = nested([
        ...of.map((changes) => ({ side: 'treated' as const, changes })),
        ...against.map((changes) => ({ side: 'untreated' as const, changes })),
      ]);
      const { degreesOfFreedom = 0, method } = estimateOf(clusterRobustDifference(design, stations, options));
      return { degreesOfFreedom, isWeak: method.kind === 'cluster-robust' && method.isWeak };
    };
    // (1/4 + 1/3)² / (1/4²/3 + 1/3²/2), and 2 + 2 for three walls each.
    const four = found(treated, untreated.slice(0, 3));
    expect(four.degreesOfFreedom).toBeCloseTo((1 / 4 + 1 / 3) ** 2 / (1 / 48 + 1 / 18), 9);
    expect(four.isWeak).toBe(false);
    const three = found(treated.slice(0, 3), untreated.slice(0, 3));
    expect(three.degreesOfFreedom).toBeCloseTo(4, 9);
    expect(three.isWeak).toBe(false);
    const uneven = found([...treated.slice(0, 2), [-3.5]], untreated.slice(0, 3));
    expect(uneven.degreesOfFreedom).toBeGreaterThan(3);
    expect(uneven.degreesOfFreedom).toBeLessThan(4);
    expect(uneven.isWeak).toBe(true);
  });

  it('refuse one wall an arm, however many its stations', () => {
    const two = nested([
      { side: 'treated', changes: [-3, -2, -4, -3.5, -2.5] },
      { side: 'untreated', changes: [0.5, -0.5, 0.2, -0.1, 0] },
    ]);
    for (const answer of [
      mixedModel(two.design, two.stations, options),
      clusterRobustDifference(two.design, two.stations, options),
      bootstrapDifference(two.design, options),
    ])
      expect(answer).toMatchObject({
        kind: 'not-estimated',
        notEstimated: { reason: { code: 'too-few-walls' } },
      });
  });

  it('refuse the mixed model where stations would count as walls', () => {
    const single = nested(free.design.walls.map(({ side, change }) => ({ side, changes: [change] })));
    expect(mixedModel(single.design, single.stations, options)).toMatchObject({
      notEstimated: { reason: { code: 'one-station-each', units: 'wall' } },
    });
    const alike = nested(
      [-3, -3.1, -2.9, 0, 0.1, -0.1].map((centre, index) => ({
        side: index < 3 ? ('treated' as const) : ('untreated' as const),
        changes: [centre - 2, centre + 2],
      })),
    );
    expect(mixedModel(alike.design, alike.stations, options)).toMatchObject({
      notEstimated: { reason: { code: 'units-no-wider-than-stations', units: 'wall' } },
    });
    const copied = nested(free.design.walls.map(({ side, change }) => ({ side, changes: [change, change, change] })));
    expect(mixedModel(copied.design, copied.stations, options)).toMatchObject({
      notEstimated: { reason: { code: 'stations-alike', units: 'wall' } },
    });
  });
});
