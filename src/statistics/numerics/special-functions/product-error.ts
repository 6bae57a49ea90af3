const splitter = 2 ** 27 + 1;

/**
 * What rounding took from `a * b`, exactly: the product as it is less the product as it comes out, by Dekker's splitting of
 * each factor into two halves. Both factors and the product below some 1e290, or the halves leave the range of doubles.
 *
 * @source Dekker 1971, Numer. Math. 18:224-242 (from memory)
 */
export function productError(a: number, b: number, rounded: number): number {
  const scaledA = splitter * a;
  const highA = scaledA - (scaledA - a);
  const lowA = a - highA;
  const scaledB = splitter * b;
  const highB = scaledB - (scaledB - b);
  const lowB = b - highB;
  return lowA * lowB - (rounded - highA * highB - lowA * highB - highA * lowB);
}
