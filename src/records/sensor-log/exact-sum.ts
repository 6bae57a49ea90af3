/** A sum and what rounding took from it: together good for twice the digits of a number. */
export interface ExactSum {
  high: number;
  low: number;
}

/** Adds a number (or takes away its negative) without losing what rounding cuts off (Knuth's two-sum). */
export function addExactly(sum: ExactSum, value: number): void {
  const high = sum.high + value;
  const part = high - sum.high;
  sum.low += sum.high - (high - part) + (value - part);
  sum.high = high;
}
