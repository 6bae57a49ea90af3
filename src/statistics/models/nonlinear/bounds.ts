import type { Curve } from './curve.js';
import type { Point } from './point.js';

/** Indices of the parameters that are not pressed against a bound by the residuals. */
export function movingParameters({ lower, upper }: Curve, { values, residuals, derivatives }: Point): number[] {
  const rows = residuals.length;
  return [...values.keys()].filter((j) => {
    if (values[j]! > lower[j]! && values[j]! < upper[j]!) return true;
    let downhill = 0;
    for (let row = 0; row < rows; row++) downhill += derivatives[j * rows + row]! * residuals[row]!;
    return values[j]! <= lower[j]! ? downhill > 0 : downhill < 0;
  });
}

export function within({ lower, upper }: Curve, values: Float64Array): Float64Array {
  return values.map((value, j) => Math.min(Math.max(value, lower[j]!), upper[j]!));
}
