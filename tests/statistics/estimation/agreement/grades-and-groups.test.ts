import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { intraclassOfGroups, weightedKappa } from '../../../../src/statistics/index.js';
import { expectRelative } from '../../../helpers/expect-relative.js';

interface Kappa {
  readonly table: number[][];
  readonly weights: 'linear' | 'quadratic';
  readonly estimate: number;
  readonly standardError: number;
}

interface Groups {
  readonly groups: number[][];
  readonly estimate: number;
  readonly limits: [number, number];
}

const file = join(import.meta.dirname, '../../../reference/association/association.json');
const { kappas, groups }: { kappas: Kappa[]; groups: Groups[] } = JSON.parse(readFileSync(file, 'utf8'));

describe('weightedKappa', () => {
  it.each(kappas.map((one, at) => [at, one.weights, one] as const))('against vcd of R: %d, %s', (_, weights, one) => {
    const found = weightedKappa(one.table, { weights });
    expectRelative(found.estimate, one.estimate, 1e-12, 'estimate');
    expectRelative(found.standardError, one.standardError, 1e-11, 'standardError');
  });

  it('is 1 for full agreement, and is refused where it has no meaning', () => {
    const full = [
      [5, 0],
      [0, 7],
    ];
    expect(weightedKappa(full)).toMatchObject({ estimate: 1, standardError: 0, n: 12 });
    expect(() => weightedKappa([[5, 1]])).toThrow(expect.objectContaining({ fault: 'lengths-differ' }));
    expect(() => weightedKappa([[5]])).toThrow(expect.objectContaining({ fault: 'too-few' }));
    const oneGrade = [
      [5, 2],
      [0, 0],
    ];
    expect(() => weightedKappa(oneGrade)).toThrow(expect.objectContaining({ fault: 'no-variation' }));
    const part = [
      [5, 1.5],
      [0, 2],
    ];
    expect(() => weightedKappa(part)).toThrow(expect.objectContaining({ fault: 'out-of-range' }));
  });
});

describe('intraclassOfGroups', () => {
  it.each(groups.map((one) => [`${one.groups.length} groups of ${one.groups[0]?.length}`, one] as const))(
    'against the analysis of variance of R: %s',
    (_, one) => {
      const { estimate, interval } = intraclassOfGroups(one.groups);
      expectRelative(estimate, one.estimate, 1e-11, 'estimate');
      expectRelative(interval.lower, one.limits[0], 1e-10, 'lower');
      expectRelative(interval.upper, one.limits[1], 1e-10, 'upper');
    },
  );

  it('is 0.17 for the six targets and four judges of Shrout and Fleiss 1979', () => {
    expect(intraclassOfGroups(groups[0]?.groups ?? []).estimate).toBeCloseTo(0.17, 2);
  });

  it('is refused for one group, single values, groups of unlike size and groups that do not vary', () => {
    expect(() => intraclassOfGroups([[1, 2]])).toThrow(expect.objectContaining({ fault: 'too-few' }));
    expect(() => intraclassOfGroups([[1], [2]])).toThrow(expect.objectContaining({ fault: 'too-few' }));
    expect(() =>
      intraclassOfGroups([
        [1, 2],
        [3, 4, 5],
      ]),
    ).toThrow(expect.objectContaining({ fault: 'lengths-differ' }));
    expect(() =>
      intraclassOfGroups([
        [2, 2],
        [3, 3],
      ]),
    ).toThrow(expect.objectContaining({ fault: 'no-variation' }));
  });
});
