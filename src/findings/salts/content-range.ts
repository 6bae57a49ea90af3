import { mean } from '../../statistics/index.js';
import type { Recorded } from '../../trial/index.js';

/**
 * Where a content lies, percent by mass: one value where it was measured, from none to the detection limit where it lies below it. What is
 * below detection is never turned into a number.
 */
export interface ContentRange {
  readonly lower_pct: number;
  readonly upper_pct: number;
}

export function rangeOf(content: Recorded): ContentRange | undefined {
  switch (content.kind) {
    case 'measured':
      return { lower_pct: content.value, upper_pct: content.value };
    case 'below-detection':
      return { lower_pct: 0, upper_pct: content.limit };
    case 'missing':
      return undefined;
  }
}

/** Where the mean of at least one lies. */
export function meanRange(ranges: readonly ContentRange[]): ContentRange {
  return {
    lower_pct: mean(ranges.map(({ lower_pct }) => lower_pct)),
    upper_pct: mean(ranges.map(({ upper_pct }) => upper_pct)),
  };
}

/** Where a change from one to the other lies. */
export function changeRange(before: ContentRange, after: ContentRange): ContentRange {
  return { lower_pct: after.lower_pct - before.upper_pct, upper_pct: after.upper_pct - before.lower_pct };
}
