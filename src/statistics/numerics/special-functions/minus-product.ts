import { productError } from './product-error.js';

/** c - a * b as if the product were not rounded: what remains when the two nearly cancel keeps all its digits. */
export function minusProduct(c: number, a: number, b: number): number {
  const product = a * b;
  if (Math.abs(a) > 1e290 || Math.abs(b) > 1e290 || Math.abs(product) > 1e290) return c - product;
  return c - product - productError(a, b, product);
}
