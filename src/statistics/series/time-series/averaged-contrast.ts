import { checkedResult, checkLevel } from '../../checked-input.js';
import { studentT } from '../../distributions/student-t.js';
import type { Interval } from '../../interval.js';
import { type ContrastWeights, weightedEstimate, weightVector } from '../../models/linear/contrast-weights.js';
import { turnedWeights } from '../../models/linear/turned-weights.js';
import { gaussLegendre } from '../../numerics/quadrature/gauss-legendre.js';
import { newtonInBracket } from '../../numerics/root-finding/newton-in-bracket.js';
import { fitAtCorrelation } from './fit-at-correlation.js';
import { gapsOfSeries, type SeriesRegression } from './series-regression.js';

export interface AveragedContrast {
  readonly kind: 'averaged-over-correlation';
  /** Median of the averaged distribution. */
  readonly estimate: number;
  /** Equal tails of the averaged distribution. */
  readonly interval: Interval;
  /** Twice the smaller tail beyond zero. */
  readonly pValue: number;
  /** Mean autocorrelation of errors one typical gap apart, after the series. */
  readonly correlation: number;
}

export interface AveragedContrastOptions {
  /** Defaults to 0.95. */
  readonly level?: number;
}

/** The contrast's t distribution at one autocorrelation, and the share of belief in it. */
interface Part {
  readonly share: number;
  readonly correlation: number;
  readonly estimate: number;
  readonly standardError: number;
}

/** Points between the autocorrelations -1 and 1. */
const rule = gaussLegendre(48);

/**
 * A weighted sum of coefficients of a series with first-order autocorrelation, without pretending that the autocorrelation
 * is known: at each autocorrelation it follows Student's t around its generalised least squares, and these are averaged,
 * each weighed by its restricted likelihood times the reference prior 1 / sqrt(1 - r^2), which is flat in the angle whose
 * sine is r.
 *
 * In short series this keeps its promise far better than the best-fitting autocorrelation alone, which is usually too near
 * to zero (tests/simulation/paired-series.md). It is a Bayesian interval, to be judged by its coverage.
 *
 * @param weights by column name; columns not named weigh nothing
 * @throws StatisticsError what `autoregressiveLeastSquares` throws but `not-converged`; `out-of-range` for weights or level
 * @example averagedContrast(series, { step: 1 }).interval // { level: 0.95, lower: -1.221, upper: -0.4568 }
 * @source Berger and Yang 1994, Econometric Theory 10:461–482 (reference prior, here on -1 to 1 alone)
 */
export function averagedContrast(
  series: SeriesRegression,
  weights: ContrastWeights,
  options: AveragedContrastOptions = {},
): AveragedContrast {
  const where = 'averagedContrast';
  const { level = 0.95 } = options;
  checkLevel(where, level);
  const { parts, averaged } = averagedOver(where, series, weights);
  return checkedResult(where, {
    kind: 'averaged-over-correlation',
    estimate: averaged.quantile(0.5),
    interval: intervalAt(averaged, level),
    pValue: Math.min(1, 2 * averaged.lowerTail(0), 2 * averaged.upperTail(0)),
    correlation: parts.reduce((sum, { share, correlation }) => sum + share * correlation, 0),
  });
}

/**
 * The intervals of `averagedContrast` at several levels, for the work of one.
 *
 * @param levels each above 0 and below 1
 * @throws StatisticsError as `averagedContrast` does
 * @example averagedIntervals(series, { step: 1 }, [0.5, 0.95])[1] // { level: 0.95, lower: -1.221, upper: -0.4568 }
 * @source as `averagedContrast`
 */
export function averagedIntervals(
  series: SeriesRegression,
  weights: ContrastWeights,
  levels: readonly number[],
): readonly Interval[] {
  const where = 'averagedIntervals';
  for (const level of levels) checkLevel(where, level);
  const { averaged } = averagedOver(where, series, weights);
  return checkedResult(where, { intervals: levels.map((level) => intervalAt(averaged, level)) }).intervals;
}

function averagedOver(where: string, series: SeriesRegression, weights: ContrastWeights) {
  const vector = weightVector(where, series.design, weights);
  const parts = partsOf(series, gapsOfSeries(where, series), vector);
  return { parts, averaged: averagedT(parts, series.response.length - vector.length) };
}

function intervalAt(averaged: ReturnType<typeof averagedT>, level: number): Interval {
  const tail = (1 - level) / 2;
  return { level, lower: averaged.quantile(tail), upper: averaged.quantile(1 - tail) };
}

function partsOf(series: SeriesRegression, gaps: readonly number[], vector: Float64Array): readonly Part[] {
  const fits = Array.from(rule.nodes, (node, at) => {
    const correlation = Math.sin((Math.PI / 2) * node);
    const { fit, logLikelihood } = fitAtCorrelation(series, gaps, correlation);
    const length = Math.hypot(...turnedWeights(fit.inverseFactor, vector));
    return {
      logShare: logLikelihood + Math.log(rule.weights[at]!),
      correlation,
      estimate: weightedEstimate(fit.coefficients, vector),
      standardError: Math.sqrt(fit.residualVariance) * length,
    };
  });
  const highest = Math.max(...fits.map(({ logShare }) => logShare));
  const total = fits.reduce((sum, { logShare }) => sum + Math.exp(logShare - highest), 0);
  return fits.map(({ logShare, ...part }) => ({ ...part, share: Math.exp(logShare - highest) / total }));
}

function averagedT(all: readonly Part[], degreesOfFreedom: number) {
  // What is left out moves no digit that is reported.
  const parts = all.filter(({ share }) => share > 1e-14);
  const t = studentT(degreesOfFreedom);
  const centre = parts.reduce((sum, { share, estimate }) => sum + share * estimate, 0);
  const width = Math.max(...parts.map(({ standardError }) => standardError));
  const sum = (of: (part: Part) => number) => parts.reduce((total, part) => total + part.share * of(part), 0);
  const lowerTail = (x: number) => sum(({ estimate, standardError }) => t.lowerTail((x - estimate) / standardError));
  const density = (x: number) =>
    sum(({ estimate, standardError }) => t.density((x - estimate) / standardError) / standardError);
  // No quantile of an average lies outside the quantiles of what is averaged.
  const extremes = (p: number) =>
    parts.map(({ estimate, standardError }) => (estimate + t.quantile(p) * standardError - centre) / width);
  return {
    lowerTail,
    upperTail: (x: number) => sum(({ estimate, standardError }) => t.upperTail((x - estimate) / standardError)),
    quantile: (p: number) => {
      const ends = extremes(p);
      const evaluate = (u: number) => ({
        value: lowerTail(centre + width * u) - p,
        slope: width * density(centre + width * u),
      });
      return centre + width * newtonInBracket(evaluate, t.quantile(p) / 2, Math.min(...ends), Math.max(...ends));
    },
  };
}
