import type { Curve } from './curve.js';

/** A curve with one parameter held at a value: the others are free. */
export function heldCurve(curve: Curve, index: number, value: number): Curve {
  const rows = curve.response.length;
  const whole = (others: Float64Array) => withValue(others, index, value);
  return {
    names: curve.names.filter((_, j) => j !== index),
    response: curve.response,
    lower: curve.lower.filter((_, j) => j !== index),
    upper: curve.upper.filter((_, j) => j !== index),
    fitted: (others) => curve.fitted(whole(others)),
    derivatives: (others) => curve.derivatives(whole(others)).filter((_, entry) => Math.floor(entry / rows) !== index),
  };
}

export function withValue(others: Float64Array, index: number, value: number): Float64Array {
  return Float64Array.of(...others.subarray(0, index), value, ...others.subarray(index));
}
