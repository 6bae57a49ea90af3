/** Whole numbers that stand for themselves over a unit. */
interface WholeNumbers {
  readonly values: readonly bigint[];
  readonly unit: bigint;
}

/**
 * Least squares of numbers taken as the exact binary fractions that doubles are, solved in whole numbers of any size: what
 * arithmetic without rounding would give. Estimates and standard errors are rounded once, at the end.
 */
export function exactLeastSquares(columns: readonly (readonly number[])[], response: readonly number[]) {
  return solve(columns.map(binaryFractions), binaryFractions(response));
}

/** The same of decimal numbers as they are printed, of which doubles are only the nearest, raised to whole powers. */
export function exactDecimalLeastSquares(
  columns: readonly { readonly values: readonly number[]; readonly power: number }[],
  response: readonly number[],
) {
  const powers = columns.map(({ values, power }) => {
    const printed = decimalFractions(values);
    return { values: printed.values.map((value) => value ** BigInt(power)), unit: printed.unit ** BigInt(power) };
  });
  return solve(powers, decimalFractions(response));
}

function solve(x: readonly WholeNumbers[], y: WholeNumbers) {
  const products = x.map((a) => x.map((b) => dot(a.values, b.values)));
  const against = x.map((a) => dot(a.values, y.values));
  const all = determinant(products);
  const solution = against.map((_, k) =>
    determinant(products.map((row, i) => row.map((entry, j) => (j === k ? against[i]! : entry)))),
  );
  // Residual sum of squares: y'y - b'X'y, with b in units of 1 / all.
  const residual = dot(y.values, y.values) * all - against.reduce((sum, entry, k) => sum + entry * solution[k]!, 0n);
  const freedom = BigInt(y.values.length - x.length);
  return {
    estimates: solution.map((numerator, k) => ratio(numerator * x[k]!.unit, all * y.unit)),
    standardErrors: solution.map((_, k) => {
      const minor = products.filter((_row, i) => i !== k).map((row) => row.filter((_entry, j) => j !== k));
      const top = residual * determinant(minor) * x[k]!.unit ** 2n;
      return Math.sqrt(ratio(top, all * all * freedom * y.unit ** 2n));
    }),
    residualDeviation: Math.sqrt(ratio(residual, all * freedom * y.unit ** 2n)),
  };
}

function binaryFractions(values: readonly number[]): WholeNumbers {
  const exponent = Math.max(...values.map(binaryPlaces));
  return { unit: 1n << BigInt(exponent), values: values.map((value) => scaled(value, exponent)) };
}

function decimalFractions(values: readonly number[]): WholeNumbers {
  const parts = values.map((value) => /^(-?\d+)(?:\.(\d+))?(?:e([-+]\d+))?$/.exec(String(value))!);
  const placesOf = ([, , fraction = '', power = '0']: RegExpExecArray) => fraction.length - Number(power);
  const places = Math.max(0, ...parts.map(placesOf));
  const whole = parts.map((part) => BigInt(part[1]! + (part[2] ?? '')) * 10n ** BigInt(places - placesOf(part)));
  return { unit: 10n ** BigInt(places), values: whole };
}

function binaryPlaces(value: number): number {
  let places = 0;
  while (!Number.isInteger(value * 2 ** places)) places++;
  return places;
}

function scaled(value: number, exponent: number): bigint {
  const places = binaryPlaces(value);
  return BigInt(value * 2 ** places) << BigInt(exponent - places);
}

function dot(a: readonly bigint[], b: readonly bigint[]): bigint {
  return a.reduce((sum, entry, i) => sum + entry * b[i]!, 0n);
}

/** Bareiss, Mathematics of Computation 22 (1968) 565–578: elimination in which every division is exact. */
function determinant(matrix: readonly (readonly bigint[])[]): bigint {
  const work = matrix.map((row) => [...row]);
  let previous = 1n;
  for (let pivot = 0; pivot < work.length - 1; pivot++) {
    // Cross-products of independent columns have no zero pivot; a replaced column can.
    const swap = work.findIndex((row, i) => i >= pivot && row[pivot] !== 0n);
    if (swap < 0) return 0n;
    if (swap !== pivot) {
      [work[pivot], work[swap]] = [work[swap]!, work[pivot]!.map((entry) => -entry)];
    }
    for (let i = pivot + 1; i < work.length; i++) {
      for (let j = pivot + 1; j < work.length; j++) {
        work[i]![j] = (work[i]![j]! * work[pivot]![pivot]! - work[i]![pivot]! * work[pivot]![j]!) / previous;
      }
    }
    previous = work[pivot]![pivot]!;
  }
  return work.at(-1)?.at(-1) ?? 1n;
}

/** numerator / denominator, to the last digit of a double. */
function ratio(numerator: bigint, denominator: bigint): number {
  if (numerator === 0n) return 0;
  const negative = numerator < 0n !== denominator < 0n;
  const [top, bottom] = [numerator, denominator].map((value) => (value < 0n ? -value : value)) as [bigint, bigint];
  const shift = bottom.toString(2).length - top.toString(2).length + 64;
  const quotient = shift >= 0 ? (top << BigInt(shift)) / bottom : top / (bottom << BigInt(-shift));
  const value = Number(quotient) * 2 ** -shift;
  return negative ? -value : value;
}
