/** Where a block lies: its first number, and how far apart its rows are. */
export interface BlockPlace {
  readonly start: number;
  readonly stride: number;
}

/** Rows of `width` numbers times the lower triangular factor, in place. */
export function timesFactor(
  numbers: Float64Array,
  { start, stride }: BlockPlace,
  height: number,
  width: number,
  factor: Float64Array,
): void {
  for (let row = 0; row < height; row++) {
    const at = start + row * stride;
    for (let column = 0; column < width; column++) {
      let sum = 0;
      for (let k = column; k < width; k++) sum += numbers[at + k]! * factor[k * width + column]!;
      numbers[at + column] = sum;
    }
  }
}

/** Rows of `width` numbers times the transpose of the factor, in place. */
export function timesTransposedFactor(
  numbers: Float64Array,
  { start, stride }: BlockPlace,
  height: number,
  width: number,
  factor: Float64Array,
): void {
  for (let row = 0; row < height; row++) {
    const at = start + row * stride;
    for (let column = width - 1; column >= 0; column--) {
      let sum = 0;
      for (let k = 0; k <= column; k++) sum += numbers[at + k]! * factor[column * width + k]!;
      numbers[at + column] = sum;
    }
  }
}

/** The factor times a block of as many rows, in place. */
export function factorTimes(
  numbers: Float64Array,
  { start, stride }: BlockPlace,
  height: number,
  width: number,
  factor: Float64Array,
): void {
  for (let column = 0; column < width; column++) {
    for (let row = height - 1; row >= 0; row--) {
      let sum = 0;
      for (let k = 0; k <= row; k++) sum += factor[row * height + k]! * numbers[start + k * stride + column]!;
      numbers[start + row * stride + column] = sum;
    }
  }
}

/** The transpose of the factor times a block of as many rows, in place. */
export function transposedFactorTimes(
  numbers: Float64Array,
  { start, stride }: BlockPlace,
  height: number,
  width: number,
  factor: Float64Array,
): void {
  for (let row = 0; row < height; row++) {
    for (let column = 0; column < width; column++) {
      let sum = 0;
      for (let k = row; k < height; k++) sum += factor[k * height + row]! * numbers[start + k * stride + column]!;
      numbers[start + row * stride + column] = sum;
    }
  }
}
