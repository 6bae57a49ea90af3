/**
 * The value that would stand at the 0-based rank if the values were sorted (Hoare's selection). Reorders the values.
 * There must be no NaN among them; infinities are welcome.
 */
export function kthSmallest(values: Float64Array, rank: number): number {
  let low = 0;
  let high = values.length - 1;
  while (low < high) {
    const pivot = middleOfThree(values[low] as number, values[(low + high) >>> 1] as number, values[high] as number);
    let left = low;
    let right = high;
    while (left <= right) {
      while ((values[left] as number) < pivot) left++;
      while ((values[right] as number) > pivot) right--;
      if (left <= right) {
        const moved = values[left] as number;
        values[left] = values[right] as number;
        values[right] = moved;
        left++;
        right--;
      }
    }
    if (rank <= right) high = right;
    else if (rank >= left) low = left;
    else return pivot;
  }
  return values[rank] as number;
}

function middleOfThree(a: number, b: number, c: number): number {
  return Math.max(Math.min(a, b), Math.min(Math.max(a, b), c));
}
