import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { verdictCode } from '../../../src/analysis/verdict-code.js';
import {
  changeVariance,
  type Sampling,
  type Spreads,
  varianceOfHouse,
} from '../../../src/planning/walls-needed/change-variance.js';
import { differenceErrors, type PlannedComparison } from '../../../src/planning/walls-needed/difference-errors.js';
import { studentLaw } from '../../../src/planning/walls-needed/interval-law.js';
import { expectedWidth, smallestShown, widthOfErrors } from '../../../src/planning/walls-needed/interval-width.js';
import type { PlannedDesign } from '../../../src/planning/walls-needed/planned-design.js';
import { chancesOfErrors, verdictChances } from '../../../src/planning/walls-needed/verdict-chances.js';
import {
  mean,
  normalDraws,
  paired,
  powerOfT,
  randomStream,
  smallestDetectable,
  welch,
} from '../../../src/statistics/index.js';

interface Reference {
  readonly student: readonly {
    readonly effect: number;
    readonly standardError: number;
    readonly degreesOfFreedom: number;
    readonly level: number;
    readonly margin: number;
    readonly worthwhile: number;
    readonly harmful: number;
    readonly smaller: number;
    readonly none: number;
    readonly undecided: number;
  }[];
  readonly paired: readonly { pairs: number; effect: number; sd: number; level: number; power: number }[];
  readonly welch: readonly {
    treated: number;
    untreated: number;
    effect: number;
    sd: number;
    mark: number;
    chance: number;
  }[];
  readonly blocks: readonly {
    blocks: number;
    treated: number;
    untreated: number;
    standardError: number;
    degreesOfFreedom: number;
  }[];
  readonly houses: readonly { houses: number; walls: number; correlation: number; variance: number }[];
  readonly visits: readonly { visits: number; autocorrelation: number; variance: number }[];
  readonly widths: readonly { degreesOfFreedom: number; level: number; width: number }[];
  readonly contrasts: readonly {
    readonly kind: 'complete' | 'pairs' | 'houses';
    readonly groups: number;
    readonly size: number;
    readonly correlation: number;
    readonly walls: number;
    readonly stations: number;
    readonly visits: number;
    readonly readings: number;
    readonly autocorrelation: number;
    readonly sampling: readonly [number, number, number];
    readonly standardError: number;
  }[];
}

const reference = JSON.parse(
  readFileSync(join(import.meta.dirname, '../../reference/planning/planning.json'), 'utf8'),
) as Reference;

const once: Sampling = { stations: 1, visitsBefore: 1, visitsAfter: 1 };
const wallsOnly = (walls: number, correlation = 0): Spreads => ({
  walls,
  correlation,
  ...{ stations: 0, visits: 0, readings: 0, measurement: 0, autocorrelation: 0 },
});
const planned = (design: PlannedDesign, spreads: Spreads, level = 0.95): PlannedComparison => ({
  ...{ design, spreads, level },
  sampling: once,
  dropOut: 0,
});

describe('chances of the verdicts of a Student interval', () => {
  it.each(reference.student)('against R: effect $effect, error $standardError, $degreesOfFreedom degrees', (one) => {
    const law = studentLaw(one.degreesOfFreedom, one.level);
    const errors = [{ probability: 1, standardError: one.standardError, law }];
    const chances = chancesOfErrors(errors, one.margin)(one.effect);
    const expected = [one.worthwhile, one.harmful, one.smaller, one.none, one.undecided];
    const found = [
      chances.worthwhile,
      chances.harmful,
      chances['smaller-than-worthwhile'],
      chances['no-worthwhile-effect'],
      chances.undecided,
    ];
    for (const [at, value] of expected.entries()) expect(Math.abs((found[at] ?? 9) - value)).toBeLessThan(1e-7);
    const others = expected.reduce((sum, value) => sum + value, 0);
    expect(chances['some-effect']).toBeCloseTo(1 - others, 6);
  });

  it.each(reference.paired)('against power.t.test of $pairs pairs', ({ pairs, effect, sd, level, power }) => {
    // Two walls with the same spread and no correlation differ by sd.
    const one = planned({ kind: 'pairs', pairs }, wallsOnly(sd / Math.SQRT2), level);
    const { 'some-effect': shown, harmful } = verdictChances(one, effect, undefined);
    expect(shown + harmful).toBeCloseTo(power, 9);
  });

  it('against powerOfT with one degree of freedom, where intervals are widest', () => {
    const one = planned({ kind: 'pairs', pairs: 2 }, wallsOnly(1));
    const { 'some-effect': shown, harmful } = verdictChances(one, 1, undefined);
    expect(shown + harmful).toBeCloseTo(powerOfT(1, { standardError: 1, degreesOfFreedom: 1 }), 9);
  });

  it('add up to 1, and a useless treatment is called worthwhile in at most 2.5 % where its effect is the margin', () => {
    const one = planned({ kind: 'pairs', pairs: 6 }, wallsOnly(1));
    const chances = verdictChances(one, 2, 2);
    expect(Object.values(chances).reduce((sum, chance) => sum + chance, 0)).toBeCloseTo(1, 9);
    expect(chances.worthwhile).toBeCloseTo(0.025, 9);
  });
});

describe('chances of the verdicts of a Welch interval', () => {
  it.each(reference.welch)('against nested integrals: $treated and $untreated walls', (one) => {
    const { treated, untreated, effect, sd, mark, chance } = one;
    const design = { kind: 'complete', treated, untreated } as const;
    const chances = verdictChances(planned(design, wallsOnly(sd)), effect, mark === 0 ? undefined : mark);
    expect(mark === 0 ? chances['some-effect'] : chances.worthwhile).toBeCloseTo(chance, 4);
  });

  it('against 6,000 simulated trials through the methods of an opinion, within four Monte Carlo errors', () => {
    const [treated, untreated, effect, margin] = [5, 8, 1.6, 1];
    const stream = randomStream(20240601);
    const draws = 6000;
    let worthwhile = 0;
    for (let trial = 0; trial < draws; trial++) {
      const one = [...normalDraws(stream, treated)].map((value) => value + effect);
      const { interval } = welch(one, [...normalDraws(stream, untreated)]);
      if (verdictCode(interval, margin, 'higher') === 'worthwhile') worthwhile++;
    }
    const design = { kind: 'complete', treated, untreated } as const;
    const chance = verdictChances(planned(design, wallsOnly(1)), effect, margin).worthwhile;
    expect(Math.abs(worthwhile / draws - chance)).toBeLessThan(4 * Math.sqrt((chance * (1 - chance)) / draws));
  });
});

describe('the standard error', () => {
  it.each(reference.blocks)('of blocks against lm: $blocks of $treated and $untreated', (one) => {
    const { blocks, treated, untreated, standardError, degreesOfFreedom } = one;
    const [error] = differenceErrors(planned({ kind: 'blocks', blocks, treated, untreated }, wallsOnly(1)));
    expect(error?.standardError).toBeCloseTo(standardError, 12);
    expect(error?.law.degreesOfFreedom).toBe(degreesOfFreedom);
  });

  it.each(reference.houses)('of houses against generalised least squares: $houses of $walls', (one) => {
    const variance = changeVariance(wallsOnly(1, one.correlation), once);
    expect(varianceOfHouse(variance, one.walls) / one.houses).toBeCloseTo(one.variance, 12);
  });

  it.each(reference.contrasts)(
    'of a whole design against the covariance matrix of its readings: $kind, $groups groups',
    (one) => {
      const { kind, groups, size, correlation, walls, stations, visits, readings, autocorrelation } = one;
      const design: PlannedDesign =
        kind === 'pairs'
          ? { kind, pairs: groups }
          : kind === 'houses'
            ? { kind, treated: groups, untreated: groups, wallsPerHouse: size }
            : { kind, treated: groups, untreated: groups };
      const spreads = { walls, stations, visits, readings, measurement: 0, autocorrelation, correlation };
      const [places, visitsBefore, visitsAfter] = one.sampling;
      const sampling = { stations: places, visitsBefore, visitsAfter };
      const [error] = differenceErrors({ ...planned(design, spreads), sampling });
      expect(error?.standardError).toBeCloseTo(one.standardError, 12);
    },
  );

  it('of 50 walls a house with an intraclass correlation of 0.05 is 3.45 times that of single walls, a published design effect', () => {
    const variance = varianceOfHouse(changeVariance(wallsOnly(1, 0.05), once), 50);
    expect(variance / (1 / 50)).toBeCloseTo(3.45, 12);
  });

  it.each(reference.visits)('of $visits visits with autocorrelation $autocorrelation against R', (one) => {
    const spreads = { ...wallsOnly(0), visits: 1, autocorrelation: one.autocorrelation };
    const sampling = { stations: 1, visitsBefore: one.visits, visitsAfter: one.visits };
    expect(changeVariance(spreads, sampling).visits).toBeCloseTo(2 * one.variance, 12);
  });

  it('never falls below what walls alone give, however many stations and visits', () => {
    const spreads = { ...wallsOnly(1), stations: 2, visits: 1, readings: 2 };
    const design = { kind: 'complete', treated: 8, untreated: 8 } as const;
    const errorOf = (stations: number, visits: number) => {
      const sampling = { stations, visitsBefore: visits, visitsAfter: visits };
      return differenceErrors({ ...planned(design, spreads), sampling })[0]?.standardError ?? 0;
    };
    expect(errorOf(1, 1)).toBeGreaterThan(errorOf(4, 4));
    expect(errorOf(1000, 1000)).toBeGreaterThan(Math.sqrt(2 / 8));
    expect(errorOf(1000, 1000)).toBeCloseTo(Math.sqrt(2 / 8), 2);
  });
});

describe('width and smallest effect', () => {
  it.each(reference.widths)(
    'against R with $degreesOfFreedom degrees of freedom',
    ({ degreesOfFreedom, level, width }) => {
      const law = studentLaw(degreesOfFreedom, level);
      expect(widthOfErrors([{ probability: 1, standardError: 1, law }])).toBeCloseTo(width, 8);
    },
  );

  it('smallestShown agrees with smallestDetectable where the other tail is nothing', () => {
    const one = planned({ kind: 'pairs', pairs: 10 }, wallsOnly(1));
    const expected = smallestDetectable({ standardError: Math.sqrt(0.2), degreesOfFreedom: 9 });
    expect(smallestShown(one, 0.8)).toBeCloseTo(expected, 5);
  });

  it('is the mean over simulated pairs, within four Monte Carlo errors', () => {
    const stream = randomStream(7);
    const widths = Array.from({ length: 4000 }, () => {
      const { interval } = paired([...normalDraws(stream, 6)]);
      return interval.upper - interval.lower;
    });
    const width = expectedWidth(planned({ kind: 'pairs', pairs: 6 }, wallsOnly(1 / Math.SQRT2)));
    const middle = mean(widths);
    const spread = Math.sqrt(mean(widths.map((value) => (value - middle) ** 2)) / widths.length);
    expect(Math.abs(middle - width)).toBeLessThan(4 * spread);
  });
});

describe('drop-out', () => {
  const spreads = wallsOnly(1.2, 0.4);
  it.each([
    { kind: 'complete', treated: 7, untreated: 7 },
    { kind: 'pairs', pairs: 7 },
    { kind: 'blocks', blocks: 4, treated: 2, untreated: 2 },
    { kind: 'houses', treated: 5, untreated: 5, wallsPerHouse: 2 },
  ] as const)('$kind: lowers the chance, and more than a little of it lowers it more', (design) => {
    const chance = (dropOut: number) => verdictChances({ ...planned(design, spreads), dropOut }, 4, 2).worthwhile;
    expect(chance(0.05)).toBeLessThan(chance(0));
    expect(chance(0.2)).toBeLessThan(chance(0.05));
  });

  it('of pairs is the mean over the binomial number of pairs left', () => {
    const one = { ...planned({ kind: 'pairs', pairs: 4 }, wallsOnly(1)), dropOut: 0.1 };
    const kept = 0.9 ** 2;
    const choose = [1, 4, 6, 4, 1];
    const expected = [2, 3, 4].reduce((sum, left) => {
      const probability = (choose[left] ?? 0) * kept ** left * (1 - kept) ** (4 - left);
      return sum + probability * verdictChances(planned({ kind: 'pairs', pairs: left }, wallsOnly(1)), 4, 2).worthwhile;
    }, 0);
    const chances = verdictChances(one, 4, 2);
    expect(chances.worthwhile).toBeCloseTo(expected, 9);
    expect(chances['not-answerable']).toBeCloseTo((1 - kept) ** 4 + 4 * kept * (1 - kept) ** 3, 9);
  });

  it('of blocks agrees with 500 simulated losses, within four Monte Carlo errors', () => {
    const design = { kind: 'blocks', blocks: 4, treated: 2, untreated: 1 } as const;
    const chances = verdictChances({ ...planned(design, wallsOnly(1)), dropOut: 0.15 }, 4, 1);
    const stream = randomStream(99);
    const draws = 500;
    const lost = () => ((stream.next() >>> 0) / 2 ** 32 < 0.15 ? 0 : 1);
    const found = Array.from({ length: draws }, () => {
      let [weight, squares] = [0, 0];
      for (let block = 0; block < 4; block++) {
        const [treated, untreated] = [lost() + lost(), lost()];
        if (treated + untreated < 2) continue;
        weight += (treated * untreated) / (treated + untreated);
        squares += treated + untreated - 1;
      }
      if (weight === 0 || squares < 2) return 0;
      const errors = [{ probability: 1, standardError: Math.sqrt(1 / weight), law: studentLaw(squares - 1, 0.95) }];
      return chancesOfErrors(errors, 1)(4).worthwhile;
    });
    const spread = Math.sqrt(mean(found.map((value) => (value - mean(found)) ** 2)) / draws);
    expect(Math.abs(mean(found) - chances.worthwhile)).toBeLessThan(4 * spread);
  });
});

describe('refuses', () => {
  const sound = planned({ kind: 'pairs', pairs: 6 }, wallsOnly(1));
  it.each([
    ['a margin of zero', () => verdictChances(sound, 1, 0)],
    ['a negative margin', () => verdictChances(sound, 1, -2)],
    ['a negative spread', () => verdictChances({ ...sound, spreads: wallsOnly(-1) }, 1, 2)],
    ['a correlation above 1', () => verdictChances({ ...sound, spreads: wallsOnly(1, 1.01) }, 1, 2)],
    [
      'an autocorrelation of 1',
      () => verdictChances({ ...sound, spreads: { ...wallsOnly(1), autocorrelation: 1 } }, 1, 2),
    ],
    ['half a pair', () => verdictChances(planned({ kind: 'pairs', pairs: 2.5 }, wallsOnly(1)), 1, 2)],
    ['no station', () => verdictChances({ ...sound, sampling: { ...once, stations: 0 } }, 1, 2)],
    ['a drop-out of all', () => verdictChances({ ...sound, dropOut: 1 }, 1, 2)],
    ['a level of 1', () => verdictChances({ ...sound, level: 1 }, 1, 2)],
    ['an effect that is no number', () => verdictChances(sound, Number.NaN, 2)],
  ])('%s', (_, act) => expect(act).toThrowError(expect.objectContaining({ fault: 'out-of-range' })));

  it('spreads of which every one is 0: walls that do not differ by themselves are none', () => {
    const act = () => verdictChances(planned({ kind: 'pairs', pairs: 6 }, wallsOnly(0)), 1, 2);
    expect(act).toThrowError(expect.objectContaining({ fault: 'not-possible' }));
  });

  it('gives a chance at a correlation of 1 where walls have their own readings', () => {
    const spreads = { ...wallsOnly(1, 1), readings: 0.5 };
    expect(verdictChances({ ...sound, spreads }, 4, 2).worthwhile).toBeGreaterThan(0.5);
  });
});
