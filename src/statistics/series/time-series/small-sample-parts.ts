import type { AutoregressiveFit } from './autoregressive-least-squares.js';
import { neighbourCorrelation } from './neighbour-correlation.js';

type Rows = readonly (readonly number[])[];

/**
 * Kenward and Roger's variance and degrees of freedom of one weighted sum of coefficients. The covariance of the series is
 * its variance times the correlation matrix R, which has one unknown r; R' and R'' are its derivatives by r.
 *
 * The parts that belong to the variance alone cancel, and what is left is written out: with X the design, P the inverse of
 * X' R^-1 X and u = P times the weights, all in units of the variance.
 */
export function smallSampleParts(
  { series, correlation, gaps, residualVariance, fit }: AutoregressiveFit,
  weights: Float64Array,
): { readonly variance: number; readonly degreesOfFreedom: number } {
  const size = fit.rank;
  const inverse = Array.from({ length: size }, (_, k) =>
    Array.from(fit.unscaledCovariance.subarray(k * size, (k + 1) * size)),
  );
  const undo = (values: readonly number[]) => inverseTimes(correlation, gaps, values);
  const { first, second } = derivatives(correlation, gaps);
  const undone = series.design.columns.map(({ values }) => undo(values));
  const turned = undone.map((values) => times(first, values));
  // X' R^-1 R' R^-1 X, the same with R^-1 R' once more, and with R'' in place of R'.
  const once = products(undone, turned);
  const twice = products(turned, turned.map(undo));
  const bent = products(
    undone,
    undone.map((values) => times(second, values)),
  );
  const onceByInverse = inverse.map((row) => once.map((_, k) => dot(row, column(once, k))));
  // R' is symmetric, so that its columns are its rows: this is R^-1 R', by columns.
  const relative = first.map(undo);

  const information = {
    ofVariance: (series.response.length - size) / 2,
    ofBoth: (trace(relative) - trace(onceByInverse)) / 2,
    ofCorrelation:
      (traceOfSquare(relative) -
        2 * inverse.reduce((sum, row, k) => sum + dot(row, column(twice, k)), 0) +
        traceOfSquare(onceByInverse)) /
      2,
  };
  const determinant = information.ofVariance * information.ofCorrelation - information.ofBoth ** 2;
  const spread = {
    ofVariance: information.ofCorrelation / determinant,
    ofBoth: -information.ofBoth / determinant,
    ofCorrelation: information.ofVariance / determinant,
  };

  const u = times(inverse, Array.from(weights));
  const plain = dot(Array.from(weights), u);
  const moved = times(once, u);
  const slope = dot(u, moved);
  const remainder = dot(u, times(twice, u)) - dot(moved, times(inverse, moved)) - dot(u, times(bent, u)) / 4;
  const added = 2 * (spread.ofCorrelation * remainder - (spread.ofBoth * slope) / 2);
  const ofVariance =
    spread.ofVariance * plain ** 2 + 2 * spread.ofBoth * plain * slope + spread.ofCorrelation * slope ** 2;
  return { variance: residualVariance * (plain + added), degreesOfFreedom: (2 * plain ** 2) / ofVariance };
}

/** First and second derivatives of the correlation matrix by the correlation of neighbours. */
function derivatives(correlation: number, gaps: readonly number[]): { readonly first: Rows; readonly second: Rows } {
  const at = [0];
  for (const gap of gaps) at.push((at.at(-1) as number) + gap);
  const size = Math.abs(correlation);
  const entries = (of: (apart: number, sign: number) => number): Rows =>
    at.map((one, i) =>
      at.map((other, j) => (i === j ? 0 : of(Math.abs(one - other), Math.sign(correlation) ** Math.abs(i - j)))),
    );
  return {
    first: entries((apart, sign) => sign * Math.sign(correlation) * apart * size ** (apart - 1)),
    second: entries((apart, sign) => sign * apart * (apart - 1) * size ** (apart - 2)),
  };
}

/** The inverse of the correlation matrix times a series: each value less what its neighbour foretells, and back. */
function inverseTimes(correlation: number, gaps: readonly number[], values: readonly number[]): readonly number[] {
  const carried = gaps.map((gap) => neighbourCorrelation(correlation, gap));
  const news = values.map((value, at) => {
    if (at === 0) return value;
    const share = carried[at - 1]!;
    return (value - share * values[at - 1]!) / ((1 - share) * (1 + share));
  });
  return news.map((value, at) => (at < carried.length ? value - carried[at]! * news[at + 1]! : value));
}

function dot(one: readonly number[], other: readonly number[]): number {
  return one.reduce((sum, value, at) => sum + value * other[at]!, 0);
}

function times(rows: Rows, values: readonly number[]): readonly number[] {
  return rows.map((row) => dot(row, values));
}

function column(rows: Rows, at: number): readonly number[] {
  return rows.map((row) => row[at]!);
}

function products(left: Rows, right: Rows): Rows {
  return left.map((one) => right.map((other) => dot(one, other)));
}

function trace(rows: Rows): number {
  return rows.reduce((sum, row, at) => sum + row[at]!, 0);
}

function traceOfSquare(rows: Rows): number {
  return rows.reduce((sum, row, i) => sum + row.reduce((part, value, j) => part + value * rows[j]![i]!, 0), 0);
}
