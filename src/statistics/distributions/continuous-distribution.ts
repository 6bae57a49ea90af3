import { checkProbability } from '../checked-input.js';
import { StatisticsError } from '../statistics-error.js';
import { checkPoint } from './check-point.js';
import type { Distribution } from './distribution.js';

/** What a continuous distribution must bring: functions of points inside its support, their arguments checked. */
export interface ContinuousParts {
  /** Ends of the support. */
  readonly from: number;
  readonly to: number;
  readonly densityAt: (x: number) => number;
  readonly below: (x: number) => number;
  readonly above: (x: number) => number;
  /** Inverse of `below`, only asked for 0 < p <= 1/2. */
  readonly pointBelow: (p: number) => number;
  /** Inverse of `above`, only asked for 0 < q <= 1/2. */
  readonly pointAbove: (q: number) => number;
}

/**
 * A distribution from its parts: checks arguments, ends the support, and inverts whichever tail is the smaller one.
 * Parameters so extreme that doubles cannot reckon with them are refused where they would give no number.
 */
export function continuousDistribution(where: string, parts: ContinuousParts): Distribution {
  const { from, to, densityAt, below, above, pointBelow, pointAbove } = parts;
  const number = (value: number): number => {
    if (!Number.isNaN(value)) return value;
    throw new StatisticsError(
      where,
      'out-of-range',
      'needs parameters that doubles can reckon with; these are too extreme',
    );
  };
  return {
    density: (x) => {
      checkPoint(where, x);
      return x < from || x > to || Math.abs(x) === Number.POSITIVE_INFINITY ? 0 : number(densityAt(x));
    },
    lowerTail: (x) => {
      checkPoint(where, x);
      return x <= from ? 0 : x >= to ? 1 : number(below(x));
    },
    upperTail: (x) => {
      checkPoint(where, x);
      return x <= from ? 1 : x >= to ? 0 : number(above(x));
    },
    quantile: (p) => {
      checkProbability(where, p);
      if (p === 0) return from;
      if (p === 1) return to;
      return number(p <= 0.5 ? pointBelow(p) : pointAbove(1 - p));
    },
    upperQuantile: (q) => {
      checkProbability(where, q);
      if (q === 0) return to;
      if (q === 1) return from;
      return number(q <= 0.5 ? pointAbove(q) : pointBelow(1 - q));
    },
  };
}
