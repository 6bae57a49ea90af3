/** Weights of the coefficients in the orthonormal basis: the transposed inverse factor times the weights. */
export function turnedWeights(inverseFactor: Float64Array, weights: Float64Array): Float64Array {
  const size = weights.length;
  const turned = new Float64Array(size);
  for (let row = 0; row < size; row++) {
    for (let column = row; column < size; column++) {
      turned[column]! += weights[row]! * inverseFactor[row * size + column]!;
    }
  }
  return turned;
}
