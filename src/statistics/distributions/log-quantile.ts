import { newtonInBracket } from '../numerics/root-finding/newton-in-bracket.js';

/** A tail as a function of the logarithm of the point, with its slope: the density by the same logarithm. */
export interface LogTail {
  readonly probability: (logPoint: number) => number;
  readonly weight: (logPoint: number) => number;
  /** Whether the tail lies above the point, so that it falls as the point grows. */
  readonly side: 'below' | 'above';
}

/** Logarithms of points are sought in the range of doubles. */
const least = -744;
const greatest = 709;

/**
 * The logarithm of the point at which a tail has the given probability, by Newton's method on logarithm against
 * logarithm, where tails are nearly straight. Infinite when the point is outside the range of doubles.
 */
export function logQuantile(tail: LogTail, probability: number, start: number): number {
  const sign = tail.side === 'below' ? 1 : -1;
  if (sign * (tail.probability(least) - probability) >= 0) return Number.NEGATIVE_INFINITY;
  if (sign * (tail.probability(greatest) - probability) <= 0) return Number.POSITIVE_INFINITY;
  return newtonInBracket(
    (logPoint) => {
      const reached = tail.probability(logPoint);
      return { value: sign * Math.log(reached / probability), slope: tail.weight(logPoint) / reached };
    },
    start,
    least,
    greatest,
  );
}
