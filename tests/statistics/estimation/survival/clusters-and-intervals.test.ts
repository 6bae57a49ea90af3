import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { type ClusteredTime, intervalCensored, isStatisticsError, logRank } from '../../../../src/statistics/index.js';
import { expectRelative } from '../../../helpers/expect-relative.js';

interface Ranked {
  readonly name: string;
  readonly time: readonly number[];
  readonly event: readonly boolean[];
  readonly x: readonly boolean[];
  readonly cluster: readonly string[];
  readonly observed: number;
  readonly expected: number;
  readonly chiSquare: number;
  readonly clustered: number;
  readonly pValue: number;
}

interface Intervals {
  readonly after: readonly number[];
  readonly by: readonly (number | null)[];
  readonly surviving: readonly number[];
}

const url = new URL('../../../reference/survival-clusters/survival-clusters.json', import.meta.url);
const { ranks, intervals }: { readonly ranks: readonly Ranked[]; readonly intervals: readonly Intervals[] } =
  JSON.parse(readFileSync(url, 'utf8')).cases;

function timesOf({ time, event, x, cluster }: Ranked): readonly ClusteredTime[] {
  return time.map((at, k) => ({
    time: at,
    end: event[k] ? 'event' : 'censored',
    group: x[k] ? 'x' : 'y',
    cluster: cluster[k]!,
  }));
}

function faultOf(call: () => unknown) {
  try {
    call();
  } catch (error) {
    if (isStatisticsError(error)) return error.fault;
    throw error;
  }
  return undefined;
}

describe('logRank(times)', () => {
  it.each(ranks.map((one) => [one.name, one] as const))('gives what R’s survival gives: %s', (_name, one) => {
    const found = logRank(timesOf(one));
    expect(found.observed).toBe(one.observed);
    expectRelative(found.expected, one.expected, 1e-10, 'expected');
    expectRelative(found.independent.chiSquare, one.chiSquare, 1e-9, 'chi-square');
    expectRelative(found.clustered.statistic, one.clustered, 1e-9, 'clustered');
    expectRelative(found.clustered.pValue, one.pValue, 1e-8, 'p');
  });

  it('turns its sign with the groups, and is not moved by the unit of time', () => {
    const times = timesOf(ranks[2]!);
    const turned = times.map((one) => ({ ...one, group: one.group === 'x' ? ('y' as const) : ('x' as const) }));
    expectRelative(logRank(turned).clustered.statistic, -logRank(times).clustered.statistic, 1e-12);
    const hours = times.map((one) => ({ ...one, time: one.time * 24 }));
    expect(logRank(hours).independent).toEqual(logRank(times).independent);
  });

  it('refuses what it cannot judge', () => {
    const one = (cluster: string, group: 'x' | 'y', end: 'event' | 'censored' = 'event') =>
      ({ time: 1, end, group, cluster }) as const;
    expect(faultOf(() => logRank([one('a', 'x'), one('b', 'y')]))).toBe('too-few');
    expect(faultOf(() => logRank([one('a', 'x'), one('a', 'y')]))).toBe('out-of-range');
    const censored = ['a', 'b'].flatMap((name) => [one(name, 'x', 'censored'), one(`${name}y`, 'y', 'censored')]);
    expect(faultOf(() => logRank(censored))).toBe('too-few');
  });
});

describe('intervalCensored(times)', () => {
  it('gives Turnbull’s estimate as R’s survival does: veteran, visits every 90 days', () => {
    const { after, by, surviving } = intervals[0]!;
    const times = after.map((time, k) => ({ after: time, ...(by[k] == null ? {} : { by: by[k]! }) }));
    const levels = [...new Set(surviving)].filter((level) => level < 1);
    const { masses } = intervalCensored(times);
    let left = 1;
    masses.forEach(({ share }, k) => {
      left -= share;
      // Both stop when a round of the algorithm moves next to nothing.
      expect(Math.abs(left - levels[k]!)).toBeLessThan(1e-5);
    });
    expect(masses.length).toBe(levels.length);
  });

  it('shares out evenly what lies apart, and refuses intervals that do not end after they begin', () => {
    const { masses } = intervalCensored([{ after: 0, by: 30 }, { after: 30, by: 60 }, { after: 60 }]);
    for (const { share } of masses) expectRelative(share, 1 / 3, 1e-9);
    expect(masses.map(({ by }) => by)).toEqual([30, 60, Number.POSITIVE_INFINITY]);
    expect(faultOf(() => intervalCensored([{ after: 3, by: 3 }]))).toBe('out-of-range');
    expect(faultOf(() => intervalCensored([]))).toBe('too-few');
  });
});
