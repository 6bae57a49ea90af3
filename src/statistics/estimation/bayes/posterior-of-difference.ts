import { checkedResult, checkLevel, checkPositive } from '../../checked-input.js';
import { normal } from '../../distributions/normal.js';
import type { Interval } from '../../interval.js';
import { StatisticsError } from '../../statistics-error.js';
import { errorDistribution, type JudgedEstimate } from '../decisions/judged-estimate.js';
import { type NormalPrior, normalPrior, type Prior } from './prior.js';
import { panelledDensity } from './product-density.js';

export interface Posterior {
  readonly kind: 'posterior';
  readonly prior: Prior;
  readonly median: number;
  /** Absent for the reference prior with 1 degree of freedom or fewer, whose tails are too heavy for a mean. */
  readonly mean?: number;
  /** Absent for the reference prior with 2 degrees of freedom or fewer. */
  readonly standardDeviation?: number;
  /** Credible, with equal tails. */
  readonly interval: Interval;
  readonly probability: {
    readonly belowZero: number;
    readonly aboveZero: number;
    /** Below -margin. */
    readonly belowMargin: number;
    /** Above the margin. */
    readonly aboveMargin: number;
    readonly withinMargin: number;
  };
}

export interface PosteriorOptions {
  readonly prior: Prior;
  /** The smallest effect that matters, above 0. */
  readonly margin: number;
  /** Of the credible interval; 0.95 unless told. */
  readonly level?: number;
}

/**
 * How probable effects are after the data, under a stated prior. The likelihood is Student's t around the estimate (normal
 * where the degrees of freedom are infinite); it is multiplied with the prior by quadrature, no sampling.
 *
 * With the reference prior the credible interval is the t interval, and `probability` reads off the same curve. Show the
 * sceptical prior beside it: what convinces a sceptic is stronger than what convinces the data alone.
 *
 * @throws StatisticsError `out-of-range`, `not-finite`
 * @example
 * posteriorOfDifference(
 *   { estimate: -2.5, standardError: 0.6, degreesOfFreedom: 14 },
 *   { prior: { kind: 'sceptical', margin: 2, probabilityBeyond: 0.05 }, margin: 2 },
 * ).probability.belowMargin // 0.481
 */
export function posteriorOfDifference(judged: JudgedEstimate, options: PosteriorOptions): Posterior {
  const { prior, margin, level = 0.95 } = options;
  checkPositive('posteriorOfDifference', 'margin', margin);
  checkLevel('posteriorOfDifference', level);
  const distribution = posteriorDistribution(judged, normalPrior(prior));
  const tail = (1 - level) / 2;
  return checkedResult('posteriorOfDifference', {
    kind: 'posterior',
    prior,
    median: distribution.quantile(0.5),
    ...(distribution.mean !== undefined && { mean: distribution.mean }),
    ...(distribution.standardDeviation !== undefined && { standardDeviation: distribution.standardDeviation }),
    interval: { level, lower: distribution.quantile(tail), upper: distribution.quantile(1 - tail) },
    probability: {
      belowZero: distribution.lowerTail(0),
      aboveZero: distribution.upperTail(0),
      belowMargin: distribution.lowerTail(-margin),
      aboveMargin: distribution.upperTail(margin),
      withinMargin: Math.max(0, 1 - distribution.lowerTail(-margin) - distribution.upperTail(margin)),
    },
  });
}

interface PosteriorDistribution {
  readonly mean?: number;
  readonly standardDeviation?: number;
  lowerTail(x: number): number;
  upperTail(x: number): number;
  quantile(p: number): number;
}

function posteriorDistribution(judged: JudgedEstimate, prior: NormalPrior | undefined): PosteriorDistribution {
  const errors = errorDistribution('posteriorOfDifference', judged);
  const { estimate, standardError, degreesOfFreedom } = judged;
  if (prior === undefined) {
    const moved = (x: number) => (x - estimate) / standardError;
    return {
      ...(degreesOfFreedom > 1 && { mean: estimate }),
      ...(degreesOfFreedom > 2 && { standardDeviation: standardError * spreadOfT(degreesOfFreedom) }),
      lowerTail: (x) => errors.lowerTail(moved(x)),
      upperTail: (x) => errors.upperTail(moved(x)),
      quantile: (p) => estimate + standardError * errors.quantile(p),
    };
  }
  return degreesOfFreedom === Number.POSITIVE_INFINITY ? conjugate(judged, prior) : product(judged, prior);
}

function spreadOfT(degreesOfFreedom: number): number {
  return degreesOfFreedom === Number.POSITIVE_INFINITY ? 1 : Math.sqrt(degreesOfFreedom / (degreesOfFreedom - 2));
}

/** Normal prior and normal likelihood: precisions add. */
function conjugate({ estimate, standardError }: JudgedEstimate, prior: NormalPrior): PosteriorDistribution {
  const share = prior.standardDeviation ** 2 / (prior.standardDeviation ** 2 + standardError ** 2);
  const mean = share * estimate + (1 - share) * prior.mean;
  const standardDeviation = standardError * Math.sqrt(share);
  return { mean, standardDeviation, ...normal(mean, standardDeviation) };
}

/** Normal prior times t likelihood, by quadrature. */
function product(judged: JudgedEstimate, prior: NormalPrior): PosteriorDistribution {
  const { estimate, standardError, degreesOfFreedom } = judged;
  const logDensity = (x: number): number => {
    const t = (x - estimate) / standardError;
    const z = (x - prior.mean) / prior.standardDeviation;
    return (-(degreesOfFreedom + 1) / 2) * Math.log1p((t * t) / degreesOfFreedom) - (z * z) / 2;
  };
  return panelledDensity(logDensity, panelEnds(judged, prior));
}

/**
 * Panels half as wide as the narrower of prior and likelihood from one centre to the other and twelve of its widths beyond,
 * then ever wider ones, as far as twelve standard deviations of the prior.
 */
function panelEnds({ estimate, standardError }: JudgedEstimate, prior: NormalPrior): number[] {
  const width = Math.min(standardError, prior.standardDeviation);
  const [left, right] = [Math.min(estimate, prior.mean), Math.max(estimate, prior.mean)];
  const count = Math.ceil((right - left) / width + 24) * 2;
  // Below the normal range of numbers a panel cannot be made a quarter wider.
  if (!(count <= 20_000 && prior.standardDeviation / width < 1e100 && width > 1e-300)) {
    const what = `needs a prior and data of like scale, got ${standardError} for the data and ${prior.standardDeviation} for the prior`;
    throw new StatisticsError('posteriorOfDifference', 'out-of-range', `${what}; check the prior and its unit`);
  }
  const from = left - 12 * width;
  const step = (right + 12 * width - from) / count;
  const inner = Array.from({ length: count + 1 }, (_, at) => from + at * step);
  const reach = 12 * prior.standardDeviation;
  const outer: number[] = [];
  for (let distance = width / 2; distance < reach; distance *= 1.25) outer.push(distance);
  const last = inner[count] as number;
  return [...outer.map((distance) => from - distance).reverse(), ...inner, ...outer.map((distance) => last + distance)];
}
