import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import {
  censoredGroupMeans,
  censoredMean,
  censoredMeans,
  concordance,
  deming,
  type FollowedTime,
  inverseAt,
  type LeftCensored,
  limitsOfAgreement,
  limitsOfRepeated,
  productLimit,
  productLimitMean,
  type ReadByBoth,
  repeatability,
  restrictedMean,
  survivingAt,
  york,
  yorkByGroups,
} from '../../../../src/statistics/index.js';

interface Line {
  name: string;
  x: number[];
  y: number[];
  slope: number;
  intercept: number;
  slopeError: number;
  interceptError: number;
}
interface Reference {
  lines: (Line & {
    errorRatio: number;
    groups: string[] | null;
    reach: number;
    y0: number;
    u: number;
    inverse: number;
    lower: number;
    upper: number;
  })[];
  yorks: (Line & { uncertaintyX: number[]; uncertaintyY: number[]; correlation: number[]; chiSquare: number })[];
  yorksGrouped: (Line & {
    uncertaintyX: number[];
    uncertaintyY: number[];
    groups: string[];
    reach: number;
    scatter: number;
  })[];
  single: {
    name: string;
    differences: number[];
    bias: number;
    biasLower: number;
    sd: number;
    upper: number;
    upperFrom: number;
    upperTo: number;
  }[];
  repeated: { things: ReadByBoth[]; variance: number; bias: number; biasError: number; constantVariance: number };
  concordances: { name: string; x: number[]; y: number[]; estimate: number; lower: number; upper: number }[];
  readers: { groups: number[][]; repeatability: number; between: number };
  coal: {
    results: number[][];
    printed: [mean: string, repeatability: string, reproducibility: string];
    mean: number;
    repeatability: number;
    reproducibility: number;
  }[];
  censored: {
    name: string;
    kind: 'normal' | 'lognormal';
    value: number[];
    below: boolean[];
    location: number;
    spread: number;
    estimate: number;
    lower: number;
    upper: number;
    logLikelihood: number;
    productLimit: number;
    productLimitError: number;
  }[];
  grouped: { name: string; groups: { value: number[]; below: boolean[] }[]; means: number[]; spread: number }[];
  followed: {
    name: string;
    time: number[];
    seen: boolean[];
    times: number[];
    atRisk: number[];
    surviving: number[];
    error: (number | string)[];
    until: number;
    mean: number;
    meanError: number;
  }[];
}

const file = new URL('../../../reference/calibration-and-censoring/calibration-and-censoring.json', import.meta.url);
const reference: Reference = JSON.parse(readFileSync(file, 'utf8'));

function closeTo(found: number | undefined, wanted: number | undefined, relative = 1e-10): void {
  expect(Math.abs((found ?? Number.NaN) - (wanted ?? Number.NaN))).toBeLessThanOrEqual(
    relative * Math.max(Math.abs(wanted ?? 0), 1e-3),
  );
}

const asCensored = (value: number[], below: boolean[]): LeftCensored[] =>
  value.map((each, index) => (below[index] ? { kind: 'below', limit: each } : { kind: 'measured', value: each }));

const meanOf = (measured: readonly number[], expected: readonly number[]) =>
  [...measured, ...expected].reduce((sum, value) => sum + value, 0) / (measured.length + expected.length);

describe('lines with errors in both variables', () => {
  it.each(reference.lines)('deming gives the formula and its jackknife in R: $name', (one) => {
    const { errorRatio, groups } = one;
    const line = deming(one, { errorRatio, ...(groups === null ? {} : { groups }) });
    closeTo(line.slope, one.slope);
    closeTo(line.intercept, one.intercept);
    closeTo((line.slopeInterval.upper - line.slope) / one.reach, one.slopeError, 1e-9);
    closeTo((line.interceptInterval.upper - line.intercept) / one.reach, one.interceptError, 1e-9);
    const back = inverseAt(line, one.y0, { newReading: one.u });
    closeTo(back.estimate, one.inverse);
    closeTo(back.interval.lower, one.lower, 1e-9);
    closeTo(back.interval.upper, one.upper, 1e-9);
  });

  it.each(reference.yorks)('york gives the least weighted sum found by R: $name', (one) => {
    const line = york(one);
    closeTo(line.slope, one.slope, 1e-9);
    closeTo(line.intercept, one.intercept, 1e-9);
    closeTo((line.slopeInterval.upper - line.slope) / 1.959963984540054, one.slopeError, 1e-7);
    closeTo((line.interceptInterval.upper - line.intercept) / 1.959963984540054, one.interceptError, 1e-7);
    closeTo(line.fit.chiSquare, one.chiSquare);
    const scaled = york(one, { scatter: 'as-seen' });
    const freedom = one.x.length - 2;
    closeTo(scaled.uncertainty.varianceOfSlope, (one.slopeError ** 2 * one.chiSquare) / freedom, 1e-7);
    expect(scaled.degreesOfFreedom).toBe(freedom);
  });

  it.each(reference.yorksGrouped)('yorkByGroups gives the jackknife of York’s line in R: $name', (one) => {
    const line = yorkByGroups(one, one.groups);
    closeTo(line.slope, one.slope, 1e-9);
    closeTo(line.scatter, one.scatter, 1e-9);
    closeTo((line.slopeInterval.upper - line.slope) / one.reach, one.slopeError, 1e-7);
    closeTo((line.interceptInterval.upper - line.intercept) / one.reach, one.interceptError, 1e-7);
  });

  it('york gives the published line of Pearson’s data with York’s weights, −0.4805 and 5.4799', () => {
    const line = york(reference.yorks[0] as Reference['yorks'][number]);
    expect(line.slope).toBeCloseTo(-0.48053341, 8);
    expect(line.intercept).toBeCloseTo(5.47991022, 8);
  });
});

describe('agreement', () => {
  it.each(reference.single)('limitsOfAgreement gives the formulas in R: $name', (one) => {
    const found = limitsOfAgreement(one.differences);
    closeTo(found.bias.estimate, one.bias);
    closeTo(found.bias.interval.lower, one.biasLower);
    closeTo(found.standardDeviation, one.sd);
    closeTo(found.upper.estimate, one.upper);
    closeTo(found.upper.interval.lower, one.upperFrom);
    closeTo(found.upper.interval.upper, one.upperTo);
    closeTo(found.lower.estimate + found.upper.estimate, 2 * one.bias);
    closeTo(found.lower.interval.upper + found.upper.interval.lower, 2 * one.bias);
  });

  it('limitsOfRepeated gives the variance components of lme4 for readings in pairs, and mean squares for free repeats', () => {
    const { things, variance, bias, biasError, constantVariance } = reference.repeated;
    const varying = limitsOfRepeated({ kind: 'varying', things });
    closeTo(varying.standardDeviation ** 2, variance, 1e-6);
    closeTo(varying.bias.estimate, bias, 1e-9);
    // Student's t with 11 degrees of freedom.
    closeTo((varying.bias.interval.upper - varying.bias.estimate) / 2.200985160082949, biasError, 1e-6);
    closeTo(limitsOfRepeated({ kind: 'constant', things }).standardDeviation ** 2, constantVariance);
  });

  it.each(reference.concordances)('concordance gives Lin’s corrected formula in R: $name', ({ x, y, ...one }) => {
    const found = concordance(x, y);
    closeTo(found.estimate, one.estimate);
    closeTo(found.interval.lower, one.lower, 1e-9);
    closeTo(found.interval.upper, one.upper, 1e-9);
  });

  it('repeatability gives the variance components of lme4 on nlme::Rail', () => {
    const found = repeatability(reference.readers.groups);
    closeTo(found.repeatability, reference.readers.repeatability, 1e-6);
    closeTo(found.betweenReaders, reference.readers.between, 1e-6);
    closeTo(found.reproducibility ** 2, found.repeatability ** 2 + found.betweenReaders ** 2);
  });
});

describe('repeatability on the example of ISO 5725-2, sulphur in coal, with unequal numbers of repeats', () => {
  it.each(reference.coal)(
    'gives what is printed, and the mean squares of R: $printed',
    ({ results, printed, ...one }) => {
      const found = repeatability(results);
      // Printed values and data from memory: that they fit each other in all twelve cases is what speaks for them.
      expect([found.mean, found.repeatability, found.reproducibility].map((value) => value.toFixed(3))).toEqual(
        printed,
      );
      closeTo(found.mean, one.mean);
      closeTo(found.repeatability, one.repeatability);
      closeTo(found.reproducibility, one.reproducibility);
    },
  );
});

describe('values below a limit, and times', () => {
  it.each(reference.censored)('censoredMean and productLimitMean give R survreg and survfit: $name', (one) => {
    const values = asCensored(one.value, one.below);
    const found = censoredMean(values, { kind: one.kind });
    // A least value found by sections knows its place to half the digits.
    closeTo(found.location, one.location, 1e-6);
    closeTo(found.spread, one.spread, 1e-6);
    closeTo(found.estimate, one.estimate, 1e-6);
    closeTo(found.interval.lower, one.lower, 1e-6);
    closeTo(found.interval.upper, one.upper, 1e-6);
    closeTo(found.logLikelihood, one.logLikelihood, 1e-10);
    const turned = productLimitMean(values);
    closeTo(turned.estimate, one.productLimit, 1e-9);
    closeTo(turned.standardError, one.productLimitError, 1e-9);
    const all = censoredMeans(values);
    expect(all.bounds.lower).toBeLessThan(all.productLimit.estimate);
    expect(all.bounds.upper).toBeGreaterThanOrEqual(all.productLimit.estimate - 1e-9);
    // The estimate of Kaplan and Meier is the mean with each value below its limit at what it says of it (Efron 1967).
    closeTo(
      meanOf(
        one.value.filter((_, k) => !one.below[k]),
        turned.expectedBelow,
      ),
      turned.estimate,
      1e-12,
    );
    expect(all.fractionBelow).toBe(one.below.filter(Boolean).length / one.value.length);
  });

  it.each(reference.grouped)('censoredGroupMeans gives the censored regression of R survreg: $name', (one) => {
    const groups = one.groups.map(({ value, below }) => asCensored(value, below));
    const found = censoredGroupMeans(groups);
    closeTo(found.spread, one.spread, 1e-9);
    for (const [index, group] of found.groups.entries()) {
      closeTo(group.mean, one.means[index], 1e-9);
      const measured = groups[index]?.flatMap((each) => (each.kind === 'measured' ? [each.value] : [])) ?? [];
      closeTo(meanOf(measured, group.expectedBelow), group.mean, 1e-10);
    }
  });

  it.each(reference.followed)('productLimit and restrictedMean give R survfit: $name', (one) => {
    const times = one.time.map((time, index): FollowedTime => ({ time, end: one.seen[index] ? 'event' : 'censored' }));
    const found = productLimit(times);
    expect(found.steps.map(({ time }) => time)).toEqual(one.times);
    expect(found.steps.map(({ atRisk }) => atRisk)).toEqual(one.atRisk);
    for (const [index, step] of found.steps.entries()) {
      closeTo(step.surviving, one.surviving[index]);
      const error = one.error[index];
      if (typeof error === 'number') closeTo(step.standardError, error);
      else expect(step.standardError).toBeUndefined();
    }
    const area = restrictedMean(found, one.until);
    closeTo(area.estimate, one.mean);
    closeTo(area.standardError, one.meanError);
    closeTo(survivingAt(found, one.times[2] as number), one.surviving[2] as number);
  });
});
