import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { baselineAdjusted, comparisonDesign, primaryDifference, type WallChange } from '../../src/analysis/index.js';
import { expectRelative } from '../helpers/expect-relative.js';

interface Expected {
  readonly estimate: number;
  readonly standardError: number;
  readonly degreesOfFreedom: number;
  readonly pValue: number;
  readonly lower: number;
  readonly upper: number;
}

interface Case {
  readonly name: string;
  readonly method: string;
  readonly walls: readonly Pick<WallChange, 'side' | 'block' | 'before' | 'after'>[];
  readonly primary: Expected;
  readonly baselineAdjusted: Expected | null;
}

const file = new URL('../reference/primary-analysis/primary-analysis.json', import.meta.url);
const { cases, tool } = JSON.parse(readFileSync(file, 'utf8')) as {
  readonly cases: readonly Case[];
  readonly tool: string;
};
const options = { level: 0.95, unit: 'units' };

function designOf({ walls }: Case) {
  return comparisonDesign(
    walls.map((wall, index) => ({
      ...wall,
      wall: `W${index}`,
      arm: wall.side,
      change: wall.after - (wall.before ?? Number.NaN),
      stations: 1,
      places: 'same' as const,
    })),
  ).design;
}

function expectEstimate(found: object, expected: Expected): void {
  const { lower, upper, ...numbers } = expected;
  const { interval, ...rest } = found as { interval: { lower: number; upper: number } } & Record<string, number>;
  for (const [name, value] of Object.entries({ ...numbers }))
    expectRelative((rest as Record<string, number>)[name], value, 1e-9, name);
  expectRelative(interval.lower, lower, 1e-9, 'lower');
  expectRelative(interval.upper, upper, 1e-9, 'upper');
}

describe(`primaryDifference against ${tool}`, () => {
  it.each(cases)('$name is $method with R’s estimate, error, degrees of freedom, p and limits', (one) => {
    const primary = primaryDifference(designOf(one), options);
    if (primary.kind !== 'estimated') throw new Error(primary.reason.code);
    expect(primary.method).toBe(one.method);
    expectEstimate(primary.estimate, one.primary);
  });
});

describe(`baselineAdjusted against ${tool}`, () => {
  it.each(cases.filter(({ baselineAdjusted }) => baselineAdjusted !== null))('$name', (one) => {
    const answer = baselineAdjusted(designOf(one), options);
    if (answer.kind !== 'estimated' || one.baselineAdjusted === null) throw new Error('not estimated');
    expectEstimate(answer.estimate, one.baselineAdjusted);
  });

  it.each(cases.filter(({ baselineAdjusted }) => baselineAdjusted === null))(
    '$name is refused with a reason, its before values being all alike',
    (one) => {
      expect(baselineAdjusted(designOf(one), options)).toMatchObject({
        kind: 'not-estimated',
        notEstimated: { id: 'baseline-adjusted', reason: { code: 'before-or-after-do-not-vary' } },
      });
    },
  );
});
