import { productError } from '../../numerics/special-functions/product-error.js';

/**
 * A number held as the unevaluated sum of two doubles, which gives about 32 significant digits.
 * Dekker, A floating-point technique for extending the available precision, Numerische Mathematik 18 (1971) 224–242;
 * Knuth, The Art of Computer Programming, volume 2, section 4.2.2, theorem B (exact sum).
 */
export interface DoubleDouble {
  readonly high: number;
  readonly low: number;
}

/** Many of them, high and low parts apart. */
export interface DoubleDoubles {
  readonly high: Float64Array;
  readonly low: Float64Array;
}

export function doubleDouble(value: number): DoubleDouble {
  return { high: value, low: 0 };
}

export function doubleDoubles(length: number): DoubleDoubles {
  return { high: new Float64Array(length), low: new Float64Array(length) };
}

export function at(values: DoubleDoubles, index: number): DoubleDouble {
  return { high: values.high[index]!, low: values.low[index]! };
}

export function put(values: DoubleDoubles, index: number, value: DoubleDouble): void {
  values.high[index] = value.high;
  values.low[index] = value.low;
}

export function toNumber(value: DoubleDouble): number {
  return value.high + value.low;
}

export function negative(value: DoubleDouble): DoubleDouble {
  return { high: -value.high, low: -value.low };
}

export function sum(a: DoubleDouble, b: DoubleDouble): DoubleDouble {
  const high = a.high + b.high;
  const error = sumError(a.high, b.high, high) + a.low + b.low;
  return normalised(high, error);
}

export function product(a: DoubleDouble, b: DoubleDouble): DoubleDouble {
  const high = a.high * b.high;
  return normalised(high, productError(a.high, b.high, high) + a.high * b.low + a.low * b.high);
}

export function quotient(a: DoubleDouble, b: DoubleDouble): DoubleDouble {
  const first = a.high / b.high;
  const remainder = sum(a, negative(product(b, doubleDouble(first))));
  const second = remainder.high / b.high;
  const rest = sum(remainder, negative(product(b, doubleDouble(second))));
  return sum(normalised(first, second), doubleDouble(rest.high / b.high));
}

export function squareRoot(value: DoubleDouble): DoubleDouble {
  const root = Math.sqrt(value.high);
  if (root === 0) return doubleDouble(0);
  const square = root * root;
  const remainder = sum(value, {
    high: -square,
    low: -productError(root, root, square),
  });
  return normalised(root, remainder.high / (2 * root));
}

/** The scalar product of two stretches of the given length, in double-double throughout. */
export function dot(a: DoubleDoubles, aStart: number, b: DoubleDoubles, bStart: number, length: number): DoubleDouble {
  let high = 0;
  let low = 0;
  for (let i = 0; i < length; i++) {
    const x = a.high[aStart + i]!;
    const y = b.high[bStart + i]!;
    const term = x * y;
    const termError = productError(x, y, term) + x * b.low[bStart + i]! + a.low[aStart + i]! * y;
    const total = high + term;
    const error = sumError(high, term, total) + low + termError;
    high = total + error;
    low = error - (high - total);
  }
  return { high, low };
}

/** Adds `scale` times one stretch to another, in place. */
export function addScaled(
  target: DoubleDoubles,
  targetStart: number,
  scale: DoubleDouble,
  source: DoubleDoubles,
  sourceStart: number,
  length: number,
): void {
  for (let i = 0; i < length; i++) {
    const x = source.high[sourceStart + i]!;
    const term = scale.high * x;
    const termError = productError(scale.high, x, term) + scale.high * source.low[sourceStart + i]! + scale.low * x;
    const before = target.high[targetStart + i]!;
    const total = before + term;
    const error = sumError(before, term, total) + target.low[targetStart + i]! + termError;
    const high = total + error;
    target.high[targetStart + i] = high;
    target.low[targetStart + i] = error - (high - total);
  }
}

/** What rounding took from `a + b`. */
function sumError(a: number, b: number, total: number): number {
  const bPart = total - a;
  return a - (total - bPart) + (b - bPart);
}

function normalised(high: number, low: number): DoubleDouble {
  const total = high + low;
  return { high: total, low: low - (total - high) };
}
