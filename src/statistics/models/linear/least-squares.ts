import { StatisticsError } from '../../statistics-error.js';
import { checkDesign } from './check-design.js';
import type { DesignMatrix } from './design-matrix.js';
import { type Dependence, isDependence, type Solution, solve } from './solution.js';

export interface Coefficient {
  /** Name of the column. */
  readonly name: string;
  /** In units of the response per unit of the column. */
  readonly estimate: number;
  readonly standardError: number;
}

/** A linear model fitted by ordinary least squares. */
export interface LeastSquaresFit {
  readonly design: DesignMatrix;
  /** One for every column, in the order of the design. */
  readonly coefficients: readonly Coefficient[];
  readonly fitted: readonly number[];
  /** Response less fitted. */
  readonly residuals: readonly number[];
  /** Observations less coefficients. */
  readonly degreesOfFreedom: number;
  readonly residualSumOfSquares: number;
  /** Residual sum of squares over the degrees of freedom. */
  readonly residualVariance: number;
  /** Number of coefficients: a design of lower rank is refused. */
  readonly rank: number;
  /** Inverse of the columns' cross-products, row-major; times the residual variance it is the coefficients' covariance. */
  readonly unscaledCovariance: Float64Array;
  /** Upper triangular, row-major: its product with its own transpose is the unscaled covariance. */
  readonly inverseFactor: Float64Array;
}

/**
 * Ordinary least squares by Householder QR.
 *
 * Columns are scaled by powers of two first. Where they are nearly collinear (condition number above 1000) the factor is
 * made again in double-double arithmetic, so that the coefficients are as accurate as the data, being doubles, allow.
 *
 * @throws StatisticsError `collinear` naming the column and those that it combines; `no-variation` for a column of zeros;
 *   `too-many-parameters` unless there are more observations than columns; `lengths-differ`; `not-finite`; `out-of-range`
 *   for a name used twice or numbers whose squares overflow
 * @example
 * const design = designMatrix([intercept(), covariate('x', [1, 2, 3])]);
 * leastSquares(design, [2, 4, 7]).coefficients.map(({ estimate }) => estimate.toFixed(3)) // ['-0.667', '2.500']
 */
export function leastSquares(design: DesignMatrix, response: readonly number[]): LeastSquaresFit {
  checkDesign('leastSquares', design, response);
  const { columns } = design;
  const scales = columns.map(({ name, values }) => columnScale(name, values));
  const responseScale = powerOfTwoAbove(response) || 1;
  const answer = solve(scaledEntries(design, response, scales, responseScale), response.length, columns.length);
  if (isDependence(answer)) throw collinear(design, answer);
  return unscaled(design, response, answer, scales, responseScale);
}

/** Powers of two, so that scaling itself rounds nothing. */
function scaledEntries(
  design: DesignMatrix,
  response: readonly number[],
  scales: readonly number[],
  responseScale: number,
): Float64Array {
  const rows = response.length;
  const entries = new Float64Array(rows * (scales.length + 1));
  design.columns.forEach(({ values }, column) => {
    const scale = scales[column]!;
    for (let row = 0; row < rows; row++) entries[column * rows + row] = values[row]! / scale;
  });
  for (let row = 0; row < rows; row++) entries[scales.length * rows + row] = response[row]! / responseScale;
  return entries;
}

function unscaled(
  design: DesignMatrix,
  response: readonly number[],
  solution: Solution,
  scales: readonly number[],
  responseScale: number,
): LeastSquaresFit {
  const rank = scales.length;
  const degreesOfFreedom = response.length - rank;
  const rows = response.length;
  const [residuals, fitted] = [new Array<number>(rows), new Array<number>(rows)];
  for (let row = 0; row < rows; row++) {
    residuals[row] = solution.residuals[row]! * responseScale;
    fitted[row] = response[row]! - residuals[row]!;
  }
  const residualSumOfSquares = solution.residualSumOfSquares * responseScale ** 2;
  const residualVariance = residualSumOfSquares / degreesOfFreedom;
  const unscaledCovariance = solution.unscaledCovariance.map(
    (value, index) => value / scales[Math.floor(index / rank)]! / scales[index % rank]!,
  );
  const inverseFactor = solution.inverseFactor.map((value, index) => value / scales[Math.floor(index / rank)]!);
  const coefficients = design.columns.map(({ name }, index) => ({
    name,
    estimate: (solution.coefficients[index]! * responseScale) / scales[index]!,
    standardError: Math.sqrt(residualVariance * unscaledCovariance[index * rank + index]!),
  }));
  checkSizes(coefficients, residualSumOfSquares);
  return {
    design,
    coefficients,
    fitted,
    residuals,
    degreesOfFreedom,
    residualSumOfSquares,
    residualVariance,
    rank,
    unscaledCovariance,
    inverseFactor,
  };
}

function columnScale(name: string, values: readonly number[]): number {
  const scale = powerOfTwoAbove(values);
  if (scale > 0) return scale;
  const detail = `needs a column that is not zero throughout, got "${name}"; remove it`;
  throw new StatisticsError('leastSquares', 'no-variation', detail);
}

/** Zero for zeros throughout. */
function powerOfTwoAbove(values: readonly number[]): number {
  let largest = 0;
  for (let row = 0; row < values.length; row++) largest = Math.max(largest, Math.abs(values[row]!));
  return largest === 0 ? 0 : 2 ** Math.floor(Math.log2(largest));
}

function collinear(design: DesignMatrix, { column, on }: Dependence): StatisticsError {
  const name = (index: number) => `"${design.columns[index]!.name}"`;
  const others = on.map(name).join(', ');
  const detail = `needs columns that do not repeat one another: ${name(column)} is a combination of ${others}; remove one of them`;
  return new StatisticsError('leastSquares', 'collinear', detail);
}

function checkSizes(coefficients: readonly Coefficient[], residualSumOfSquares: number): void {
  const finite = coefficients.every(({ estimate, standardError }) => Number.isFinite(estimate + standardError));
  if (finite && Number.isFinite(residualSumOfSquares)) return;
  const detail = 'needs numbers whose squares fit into a double; express the response or the columns in another unit';
  throw new StatisticsError('leastSquares', 'out-of-range', detail);
}
