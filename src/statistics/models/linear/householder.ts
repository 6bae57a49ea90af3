/**
 * Householder QR of `[X | y]`, stored column by column in one array and overwritten by the factor R and the reflectors.
 *
 * The columns are taken in the order given, so that a column which adds nothing to those before it is met at its own place
 * and can be named: pivoting would blame another. Golub and Van Loan, Matrix Computations (4th ed. 2013), section 5.2.
 */
export interface HouseholderFactor {
  readonly rows: number;
  readonly columns: number;
  /** Column-major, `rows` by `columns + 1`: R above the diagonal, reflectors on and below it, and Q'y as the last column. */
  readonly entries: Float64Array;
  /** Diagonal of R. */
  readonly diagonal: Float64Array;
  /** How much of each column is not explained by those before it: the sine of the angle between them. */
  readonly independence: Float64Array;
}

export function householder(entries: Float64Array, rows: number, columns: number): HouseholderFactor {
  const diagonal = new Float64Array(columns);
  const independence = new Float64Array(columns);
  for (let pivot = 0; pivot < columns; pivot++) {
    const whole = norm(entries, pivot * rows, (pivot + 1) * rows);
    const start = pivot * rows + pivot;
    const remaining = norm(entries, start, (pivot + 1) * rows);
    independence[pivot] = whole === 0 ? 0 : remaining / whole;
    if (remaining === 0) continue;
    const head = entries[start]!;
    const reflected = head > 0 ? -remaining : remaining;
    diagonal[pivot] = reflected;
    entries[start] = head - reflected;
    const factor = 1 / (reflected * (reflected - head));
    for (let column = pivot + 1; column <= columns; column++) {
      reflect(entries, start, column * rows + pivot, rows - pivot, factor);
    }
  }
  return { rows, columns, entries, diagonal, independence };
}

/** Upper triangular inverse of R, row-major. */
export function inverseTriangle(factor: HouseholderFactor): Float64Array {
  const { rows, columns, entries, diagonal } = factor;
  const inverse = new Float64Array(columns * columns);
  for (let column = 0; column < columns; column++) {
    inverse[column * columns + column] = 1 / diagonal[column]!;
    for (let row = column - 1; row >= 0; row--) {
      let sum = 0;
      for (let k = row + 1; k <= column; k++) sum += entries[k * rows + row]! * inverse[k * columns + column]!;
      inverse[row * columns + column] = -sum / diagonal[row]!;
    }
  }
  return inverse;
}

/** Turns a vector by the reflectors, in place: Q'v. */
export function reflectForward(factor: HouseholderFactor, vector: Float64Array): void {
  for (let pivot = 0; pivot < factor.columns; pivot++) mirror(factor, pivot, vector);
}

/** Turns a vector back by the reflectors, in place: Qv. */
export function reflectBackward(factor: HouseholderFactor, vector: Float64Array): void {
  for (let pivot = factor.columns - 1; pivot >= 0; pivot--) mirror(factor, pivot, vector);
}

function mirror({ rows, entries, diagonal }: HouseholderFactor, pivot: number, vector: Float64Array): void {
  const start = pivot * rows + pivot;
  const length = rows - pivot;
  let dot = 0;
  for (let i = 0; i < length; i++) dot += entries[start + i]! * vector[pivot + i]!;
  const scale = -dot / (diagonal[pivot]! * entries[start]!);
  for (let i = 0; i < length; i++) vector[pivot + i]! -= scale * entries[start + i]!;
}

function norm(entries: Float64Array, from: number, to: number): number {
  let sum = 0;
  for (let i = from; i < to; i++) sum += entries[i]! * entries[i]!;
  return Math.sqrt(sum);
}

function reflect(entries: Float64Array, mirror: number, target: number, length: number, factor: number): void {
  let dot = 0;
  for (let i = 0; i < length; i++) dot += entries[mirror + i]! * entries[target + i]!;
  const scale = dot * factor;
  for (let i = 0; i < length; i++) entries[target + i]! -= scale * entries[mirror + i]!;
}
