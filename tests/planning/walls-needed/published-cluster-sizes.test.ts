import { describe, expect, it } from 'vitest';
import {
  changeVariance,
  type Spreads,
  totalVariance,
  varianceOfHouse,
} from '../../../src/planning/walls-needed/change-variance.js';
import type { PlannedComparison } from '../../../src/planning/walls-needed/difference-errors.js';
import type { PlannedDesign } from '../../../src/planning/walls-needed/planned-design.js';
import { verdictChances } from '../../../src/planning/walls-needed/verdict-chances.js';
import { wallsNeeded } from '../../../src/planning/walls-needed/walls-needed.js';
import { normal, powerOfT } from '../../../src/statistics/index.js';

// Published sample sizes of cluster-randomised trials, as printed. A cluster is a house and its members are walls, or a cluster is a wall
// and its members are stations: the formulae must give the same either way.

const nothing: Spreads = {
  ...{ walls: 0, stations: 0, visits: 0, readings: 0, measurement: 0 },
  ...{ autocorrelation: 0, correlation: 0 },
};

/** Clusters of equal size whose members have this variance in all and this intracluster correlation. */
interface Clusters {
  readonly size: number;
  readonly correlation: number;
  readonly variance?: number;
}

/** The variance of a cluster's mean, of walls in a house. */
function ofHouse({ size, correlation, variance = 1 }: Clusters): number {
  const spreads = { ...nothing, walls: Math.sqrt(variance), correlation };
  return varianceOfHouse(changeVariance(spreads, { stations: 1, visitsBefore: 1, visitsAfter: 1 }), size);
}

/** Stations in walls with the same variances. */
function stationsInWalls({ size, correlation, variance = 1 }: Clusters, design: PlannedDesign): PlannedComparison {
  const spreads = {
    ...nothing,
    walls: Math.sqrt(correlation * variance),
    stations: Math.sqrt((1 - correlation) * variance),
  };
  return { design, spreads, sampling: { stations: size, visitsBefore: 1, visitsAfter: 1 }, dropOut: 0, level: 0.95 };
}

const designEffect = (clusters: Clusters) => ofHouse(clusters) * clusters.size;

/** Student's t on cluster means, as many in either arm. */
const powerOfMeans = (effect: number, anArm: number, clusters: Clusters) =>
  powerOfT(effect, {
    standardError: Math.sqrt((2 * ofHouse(clusters)) / anArm),
    degreesOfFreedom: 2 * anArm - 2,
  });

/** Clusters in either arm by the normal quantiles of the textbook formula, not rounded. */
function byNormalQuantiles(effect: number, clusters: Clusters, power: number, level = 0.95): number {
  const quantiles = normal().upperQuantile((1 - level) / 2) + normal().upperQuantile(1 - power);
  return (2 * quantiles ** 2 * ofHouse(clusters)) / effect ** 2;
}

describe('the design effect, as printed', () => {
  // The page of the table prints effective sample sizes and powers cut off, not rounded.
  const killip = [
    { size: 10, effect: 1.153, effective: 34, power: 29 },
    { size: 20, effect: 1.323, effective: 60, power: 47 },
    { size: 40, effect: 1.663, effective: 96, power: 67 },
    { size: 80, effect: 2.343, effective: 136, power: 82 },
  ];

  it.each(killip)(
    'Killip, Mahfoud and Pearce 2004 (Ann Fam Med 2:204; authors from memory), table for 4 physicians: $size patients each, correlation 0.017',
    ({ size, effect, effective, power }) => {
      const found = designEffect({ size, correlation: 0.017 });
      expect(found).toBeCloseTo(effect, 10);
      expect(Math.floor((4 * size) / found)).toBe(effective);
      // Their power is that of as many independent patients as the sample is worth.
      const independent = { standardError: Math.sqrt(4 / effective), degreesOfFreedom: effective - 2 };
      expect(Math.floor(100 * powerOfT(0.5, independent))).toBe(power);
    },
  );

  it.each([
    [10, 0.145],
    [20, 0.21],
    [40, 0.291],
    [80, 0.373],
  ])(
    'the same table with t on the means of 4 clusters, as our plans have it: %i patients each give a power of %f by R’s pt',
    (size, power) => {
      // Two degrees of freedom in place of 32 to 134: the difference of the conventions.
      expect(powerOfMeans(0.5, 2, { size, correlation: 0.017 })).toBeCloseTo(power, 3);
    },
  );

  it('Sedgwick 2013 (BMJ 346:f2839): 340 patients become 1,104, 24 practices of 46, at a correlation of 0.05', () => {
    const needed = 340 * designEffect({ size: 46, correlation: 0.05 });
    expect(needed).toBeCloseTo(1105, 10);
    // The printed number is the whole practices nearest to it.
    expect(Math.round(needed / 46) * 46).toBe(1104);
  });

  it('BMJ 1999 (319:683, note on sample size): groups of 93 are inflated by 1.3 at a correlation of 0.05, which is clusters of 7', () => {
    expect(designEffect({ size: 7, correlation: 0.05 })).toBeCloseTo(1.3, 12);
  });

  it('Kerry and Bland 1998 (BMJ 316:1455): variances of 0.0046 and 1.28 are a correlation of 0.0036', () => {
    const between = changeVariance(
      { ...nothing, walls: Math.sqrt(0.0046), stations: Math.sqrt(1.28) },
      { stations: 1, visitsBefore: 1, visitsAfter: 1 },
    );
    expect(between.walls / totalVariance(between)).toBeCloseTo(0.0036, 4);
  });
});

describe('the number of clusters by normal quantiles, as printed', () => {
  it('the example of a Stata add-on, sampsi 12 16, sd(5), sampclus, obsclus(10) rho(0.3): 93 an arm, 19 clusters', () => {
    const single = Math.ceil(byNormalQuantiles(4, { size: 1, correlation: 0, variance: 25 }, 0.8));
    expect(single).toBe(25);
    const effect = designEffect({ size: 10, correlation: 0.3 });
    expect(Math.ceil(single * effect)).toBe(93);
    expect(Math.ceil((2 * single * effect) / 10)).toBe(19);
  });

  it('the same example by t on cluster means, as our plans have it: 11 an arm where normal quantiles ask for 9.1', () => {
    const clusters = { size: 10, correlation: 0.3, variance: 25 };
    expect(byNormalQuantiles(4, clusters, 0.8)).toBeCloseTo(9.075, 3);
    expect(powerOfMeans(4, 10, clusters)).toBeLessThan(0.8);
    expect(powerOfMeans(4, 11, clusters)).toBeGreaterThan(0.8);
  });

  it('Kerry and Bland 1998 (BMJ 316:549): 558 practices of 10 patients find 0.1 mmol/l with 90 %; the table from memory', () => {
    const variance = 0.0046 + 1.28;
    const clusters = { size: 10, correlation: 0.0046 / variance, variance };
    expect(2 * Math.ceil(byNormalQuantiles(0.1, clusters, 0.9))).toBe(558);
  });
});

describe('the power of a t test on cluster means, as printed', () => {
  // f = 0.6, 10 clusters in all, correlation 0.1; after Raudenbush 1997 (Psychological Methods 2:173).
  const powers = [
    [20, 0.5901684],
    [30, 0.6365313],
    [40, 0.662003],
    [50, 0.6780525],
    [60, 0.6890755],
    [70, 0.6971076],
    [80, 0.7032181],
    [90, 0.7080217],
    [100, 0.7118967],
  ] as const;

  it.each(powers)(
    'Zhang and Yuan 2018 (Practical Statistical Power Analysis), example of two arms: %i a cluster give %f',
    (size, power) => {
      expect(powerOfMeans(0.6, 5, { size, correlation: 0.1 })).toBeCloseTo(power, 6);
    },
  );

  it.each(powers)(
    'our plan of %i stations a wall comes within 0.03 of it by Welch’s interval, from below',
    (size, power) => {
      const plan = stationsInWalls({ size, correlation: 0.1 }, { kind: 'complete', treated: 5, untreated: 5 });
      const { 'some-effect': better, harmful } = verdictChances(plan, 0.6, undefined);
      expect(better + harmful).toBeLessThan(power);
      expect(better + harmful).toBeGreaterThan(power - 0.03);
    },
  );

  it('Zhang and Yuan 2018, the same with f = 0.8: clusters of 16.02558 give 0.8', () => {
    expect(powerOfMeans(0.8, 5, { size: 16.02558, correlation: 0.1 })).toBeCloseTo(0.8, 6);
  });

  it('Moyer and Kleinman 2021 (manual of clusterPower 0.7), normal outcomes: 16 an arm of 10 give 0.801766', () => {
    // The manual rounds down the last digit.
    expect(powerOfMeans(1, 16, { size: 10, correlation: 0.1, variance: 5 })).toBeCloseTo(0.801766, 5);
  });
});

/** Walls in all for a true effect so far beyond a margin: the chance of `worthwhile` is then the power of a test of that distance. */
function wallsOf(planned: PlannedComparison, effect: number): number {
  const found = wallsNeeded(planned, { effect: effect + 1, margin: 1, chance: 0.8 });
  return found.kind === 'found' ? found.walls : Number.POSITIVE_INFINITY;
}

const twoArms = { kind: 'complete', treated: 1, untreated: 1 } as const;

/** Members followed from before to after: variances of a change by the correlations of a cluster and of a member with itself. */
function ofChanges(size: number, correlation: number, ofCluster: number, ofMember: number): PlannedComparison {
  const spreads = {
    ...nothing,
    walls: Math.sqrt(2 * correlation * (1 - ofCluster)),
    stations: Math.sqrt(2 * (1 - correlation) * (1 - ofMember)),
  };
  return {
    ...{ design: twoArms, spreads, dropOut: 0, level: 0.95 },
    sampling: { stations: size, visitsBefore: 1, visitsAfter: 1 },
  };
}

describe('wallsNeeded gives the number of clusters, as printed', () => {
  it('Moyer and Kleinman 2021 (manual of clusterPower 0.7), normal outcomes: 16 an arm of 10, variance 5, correlation 0.1', () => {
    expect(wallsOf(stationsInWalls({ size: 10, correlation: 0.1, variance: 5 }, twoArms), 1)).toBe(32);
  });

  it.each([
    { name: 'manual, rho_c 0.5, rho_s 0.7', size: 100, effect: 0.5, ofCluster: 0.5, ofMember: 0.7, anArm: 5 },
    {
      name: 'NIH’s calculator in its tests, cross-sectional',
      size: 150,
      effect: 0.48,
      ofCluster: 0,
      ofMember: 0,
      anArm: 9,
    },
    { name: 'NIH’s calculator in its tests, cohort', size: 150, effect: 0.48, ofCluster: 0.3, ofMember: 0.7, anArm: 7 },
  ])(
    'Moyer and Kleinman 2021 (clusterPower 0.7), difference in differences, $name: $anArm an arm',
    ({ size, effect, ofCluster, ofMember, anArm }) => {
      expect(wallsOf(ofChanges(size, 0.05, ofCluster, ofMember), effect)).toBe(2 * anArm);
    },
  );

  it('Moyer, documentation of matching in an earlier clusterPower, after Crespi 2016 (Annu Rev Public Health 37:1): 12 pairs of 10, correlation of pairs 0.7', () => {
    const plan = stationsInWalls({ size: 10, correlation: 0.1, variance: 5 }, { kind: 'pairs', pairs: 1 });
    expect(wallsOf({ ...plan, spreads: { ...plan.spreads, correlation: 0.7 } }, 1)).toBe(24);
  });

  it('NIH’s calculator, in the tests of clusterPower 0.7: 5 an arm of 150 by Student’s t, which reach 0.8 by a hair, and 6 by Welch’s', () => {
    const clusters = { size: 150, correlation: 0.05 };
    expect(powerOfMeans(0.4804988, 5, clusters)).toBeGreaterThan(0.8);
    expect(powerOfMeans(0.4804988, 5, clusters)).toBeLessThan(0.8001);
    expect(powerOfMeans(0.4804988, 4, clusters)).toBeLessThan(0.8);
    expect(wallsOf(stationsInWalls(clusters, twoArms), 0.4804988)).toBe(12);
  });
});

describe('unequal clusters', () => {
  /** Variance of the mean of an arm whose cluster means are weighted, times its members: the design effect. */
  const effectOf = (sizes: readonly number[], correlation: number, weightOf: (size: number) => number) => {
    const whole = sizes.reduce((sum, size) => sum + weightOf(size), 0);
    const members = sizes.reduce((sum, size) => sum + size, 0);
    return (
      members * sizes.reduce((sum, size) => sum + (weightOf(size) / whole) ** 2 * ofHouse({ size, correlation }), 0)
    );
  };
  const spreadOf = (sizes: readonly number[]) => {
    const mean = sizes.reduce((sum, size) => sum + size, 0) / sizes.length;
    const variation = Math.sqrt(sizes.reduce((sum, size) => sum + (size - mean) ** 2, 0) / sizes.length) / mean;
    return { mean, variation };
  };

  it.each([
    [[8, 16], 0.2],
    [[3, 5, 22, 10], 0.05],
    [[100, 50, 25, 100, 100], 0.1],
  ])(
    'Eldridge, Ashby and Kerry 2006 (Int J Epidemiol 35:1292), weighted by size: %j at %f have 1 + ((cv² + 1) m − 1) ρ',
    (sizes, correlation) => {
      const { mean, variation } = spreadOf(sizes);
      const published = 1 + ((variation ** 2 + 1) * mean - 1) * correlation;
      expect(effectOf(sizes, correlation, (size) => size)).toBeCloseTo(published, 12);
    },
  );

  it('Eldridge, Ashby and Kerry 2006, abstract: a variation below 0.23 is negligible, at most 5.3 % whatever the correlation', () => {
    const sizes = [77, 123];
    expect(spreadOf(sizes).variation).toBeCloseTo(0.23, 12);
    for (const correlation of [0.001, 0.05, 0.5, 0.999])
      expect(effectOf(sizes, correlation, (size) => size)).toBeLessThan(
        1.053 * designEffect({ size: 100, correlation }),
      );
  });

  it('and a house that counts once, as in our analysis, has (1 − ρ) m̄ / m̃ + ρ m̄ instead, with the harmonic mean m̃', () => {
    const sizes = [3, 5, 22, 10];
    const harmonic = sizes.length / sizes.reduce((sum, size) => sum + 1 / size, 0);
    const expected = (0.95 * 10) / harmonic + 0.05 * 10;
    expect(effectOf(sizes, 0.05, () => 1)).toBeCloseTo(expected, 12);
    expect(expected).toBeGreaterThan(effectOf(sizes, 0.05, (size) => size));
  });
});

describe('a fixed number of clusters', () => {
  // Members an arm without clusters, by normal quantiles as there.
  const single = byNormalQuantiles(0.25, { size: 1, correlation: 0 }, 0.8);

  it.each([
    [13, false],
    [14, true],
  ])(
    'Hemming et al. 2011 (BMC Med Res Methodol 11:102), abstract: feasible only with more than n ρ clusters an arm, and of %i: %s',
    (clusters, feasible) => {
      const correlation = 0.055;
      expect(clusters > single * correlation).toBe(feasible);
      const inMany = byNormalQuantiles(0.25, { size: 1e9, correlation }, 0.8);
      expect(inMany <= clusters).toBe(feasible);
    },
  );

  it('Hemming et al. 2011: clusters of n (1 − ρ) / (k − n ρ), the formula from memory, are just enough', () => {
    const [clusters, correlation] = [20, 0.055];
    const size = (single * (1 - correlation)) / (clusters - single * correlation);
    expect(byNormalQuantiles(0.25, { size, correlation }, 0.8)).toBeCloseTo(clusters, 10);
  });

  it('is never enough by t on cluster means either, however many stations: 13 walls an arm stay below 0.8', () => {
    const of = (size: number) =>
      verdictChances(
        stationsInWalls({ size, correlation: 0.055 }, { kind: 'complete', treated: 13, untreated: 13 }),
        0.25,
        undefined,
      )['some-effect'];
    expect(of(10_000)).toBeGreaterThan(of(100));
    expect(of(10_000)).toBeLessThan(0.8);
  });
});
