import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import {
  censoredGroupMeans,
  censoredMean,
  isStatisticsError,
  type LeftCensored,
  studentT,
} from '../../../../src/statistics/index.js';
import { expectRelative } from '../../../helpers/expect-relative.js';

interface Reference {
  readonly means: readonly {
    readonly values: string;
    readonly kind: 'normal' | 'lognormal';
    readonly location: number;
    readonly spread: number;
    readonly logLikelihood: number;
    /** "Inf" beyond the range of doubles. */
    readonly limits: readonly [number, number | 'Inf'];
  }[];
  readonly groups: readonly {
    readonly groups: readonly string[];
    readonly means: readonly number[];
    readonly spread: number;
  }[];
}

const url = new URL('../../../reference/censored/censored.json', import.meta.url);
const { means, groups }: Reference = JSON.parse(readFileSync(url, 'utf8'));

/** "2.01 1.99 <0.5". */
const read = (written: string): LeftCensored[] =>
  written
    .split(' ')
    .map((one) =>
      one.startsWith('<')
        ? { kind: 'below' as const, limit: Number(one.slice(1)) }
        : { kind: 'measured' as const, value: Number(one) },
    );

function faultOf(call: () => unknown): string {
  try {
    call();
  } catch (error) {
    if (isStatisticsError(error)) return error.fault;
    throw error;
  }
  return 'none';
}

describe('censoredMean where measured values lie close together beside their distance from the limit', () => {
  it('gives the maximum of survreg of R and the limits of the profile on a grid: 240 random samples', () => {
    for (const { values, kind, location, spread, logLikelihood, limits } of means) {
      if (limits[1] === 'Inf') {
        expect(faultOf(() => censoredMean(read(values), { kind }))).toBe('not-converged');
        continue;
      }
      const found = censoredMean(read(values), { kind });
      expect(Math.abs(found.location - location) / found.spread, values).toBeLessThan(1e-9);
      expectRelative(found.spread, spread, 1e-9, values);
      expect(Math.abs(found.logLikelihood - logLikelihood), values).toBeLessThan(1e-9);
      // The reference limits are written to 8 digits.
      expectRelative(found.interval.lower, limits[0], 1e-7, `lower limit of ${values}`);
      expectRelative(found.interval.upper, limits[1], 1e-7, `upper limit of ${values}`);
    }
    expect(means).toHaveLength(240);
    expect(means.filter(({ limits }) => limits[1] === 'Inf').length).toBeLessThan(6);
  });

  it('finds the peak of three repeats above two limits, and the far lower limit of two above six', () => {
    const three = censoredMean(read('3.1 3.2 3.15 <1 <1'));
    expectRelative(three.estimate, 1.8682257387, 1e-9);
    expectRelative(three.interval.lower, -2.96755598833, 1e-9);
    const two = censoredMean(read('5 5.1 <1 <1 <1 <1 <1 <1'));
    expectRelative(two.estimate, -2.3786540761, 1e-9);
    expectRelative(two.interval.lower, -38.382188388, 1e-9);
  });

  it('is Student’s interval to the last digits where no value lies below a limit', () => {
    const { estimate, interval, spread } = censoredMean(read('3 4 5 6 7'));
    const reach = studentT(4).upperQuantile(0.025) * Math.sqrt(2.5 / 5);
    expect(estimate).toBe(5);
    expectRelative(interval.upper, 5 + reach, 1e-15);
    expectRelative(interval.lower, 5 - reach, 1e-15);
    expectRelative(spread, Math.sqrt(2), 1e-15);
  });

  it('follows a change of unit and of origin', () => {
    const near = censoredMean(read('2 2.01 1.99 2.02 <0.5 <0.5 <0.5 <0.5'));
    const far = censoredMean(read('2000000 2010000 1990000 2020000 <500000 <500000 <500000 <500000'));
    const moved = censoredMean(read('102 102.01 101.99 102.02 <100.5 <100.5 <100.5 <100.5'));
    expectRelative(far.estimate, 1e6 * near.estimate, 1e-11);
    expectRelative(far.interval.lower, 1e6 * near.interval.lower, 1e-9);
    expectRelative(moved.estimate - 100, near.estimate, 1e-10);
    expectRelative(moved.interval.lower - 100, near.interval.lower, 1e-8);
  });
});

describe('censoredGroupMeans with readings of one decimal', () => {
  it('gives the censored regression of survreg of R for each of 220 random trials and refuses none', () => {
    for (const one of groups) {
      const found = censoredGroupMeans(one.groups.map(read));
      expectRelative(found.spread, one.spread, 1e-9, one.groups.join(' | '));
      found.groups.forEach((group, at) => {
        const off = Math.abs(group.mean - one.means[at]!) / found.spread;
        // The reference means are written to 10 digits.
        expect(off, `${one.groups.join(' | ')}, group ${at + 1}`).toBeLessThan(1e-8);
      });
    }
    expect(groups).toHaveLength(220);
  });
});
