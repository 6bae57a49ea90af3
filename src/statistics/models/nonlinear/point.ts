import type { Curve } from './curve.js';

/** A curve at one vector of parameters. */
export interface Point {
  readonly values: Float64Array;
  readonly fitted: Float64Array;
  /** Response less fitted. */
  readonly residuals: Float64Array;
  readonly sumOfSquares: number;
  readonly derivatives: Float64Array;
}

/** Undefined where the model, or its square, is not finite, or where its sum of squares is not below the limit. */
export function pointAt(curve: Curve, values: Float64Array, below = Number.POSITIVE_INFINITY): Point | undefined {
  const fitted = curve.fitted(values);
  const residuals = curve.response.map((value, row) => value - fitted[row]!);
  const sumOfSquares = residuals.reduce((sum, residual) => sum + residual * residual, 0);
  if (!(sumOfSquares < below)) return undefined;
  const derivatives = curve.derivatives(values);
  if (!derivatives.every(Number.isFinite)) return undefined;
  return { values, fitted, residuals, sumOfSquares, derivatives };
}

/** Length of the derivatives by one parameter. */
export function columnNorm({ derivatives, residuals }: Point, parameter: number): number {
  const rows = residuals.length;
  const column = derivatives.subarray(parameter * rows, (parameter + 1) * rows);
  return Math.sqrt(column.reduce((sum, slope) => sum + slope * slope, 0));
}
