const splitter = 2 ** 27 + 1;

/**
 * c - a * b as if the product were not rounded: what remains when the two nearly cancel keeps all its digits.
 *
 * The rounding error of the product is recovered exactly by Dekker's splitting of each factor into two halves.
 */
export function minusProduct(c: number, a: number, b: number): number {
  const product = a * b;
  if (Math.abs(a) > 1e290 || Math.abs(b) > 1e290 || Math.abs(product) > 1e290) return c - product;
  const scaledA = splitter * a;
  const highA = scaledA - (scaledA - a);
  const lowA = a - highA;
  const scaledB = splitter * b;
  const highB = scaledB - (scaledB - b);
  const lowB = b - highB;
  const error = lowA * lowB - (product - highA * highB - lowA * highB - highA * lowB);
  return c - product - error;
}
