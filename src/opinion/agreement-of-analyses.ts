import type { Answer, Estimate, EstimateWithInterval, Primary } from '../analysis/index.js';
import { verdictCode } from '../analysis/verdict-code.js';
import type { Interval } from '../statistics/index.js';
import type { Protocol } from '../trial/index.js';

/** What an interval can say. */
type IntervalCode = ReturnType<typeof verdictCode>;

/** Whether the other analyses, their intervals set against zero and the margin, lead to the primary verdict. */
export type Agreement =
  /** The primary analysis has no interval. */
  | { readonly kind: 'no-primary' }
  | {
      readonly kind: 'compared';
      /** What the primary interval says. */
      readonly code: IntervalCode;
      /** Other analyses with an interval. */
      readonly others: number;
      /** Those that would say something else. */
      readonly apart: readonly ApartFromPrimary[];
    };

interface ApartFromPrimary {
  readonly estimate: Estimate;
  readonly code: IntervalCode;
  readonly because: ReasonApart;
}

export type ReasonApart =
  /** The estimate lies elsewhere, by so much in the outcome's unit. */
  | { readonly kind: 'shifted'; readonly shift: number }
  /** The interval is so many times as wide. */
  | { readonly kind: 'wider'; readonly ratio: number }
  | { readonly kind: 'limits-differ-little' };

/** Shift of the estimate, in half-widths of the primary interval, from which it and not the width is named: our convention. */
const noteworthyShift = 0.25;
/** Ratio of widths, less one, below which they count as alike: our convention. */
const alikeWidths = 0.02;

/** The verdict that each analysis with an interval would lead to, beside the primary one's. */
export function agreementOfAnalyses(
  { margin, outcome }: Pick<Protocol, 'margin' | 'outcome'>,
  primary: Primary,
  analyses: readonly Answer[],
): Agreement {
  if (primary.kind !== 'estimated') return { kind: 'no-primary' };
  const codeOf = (interval: Interval) => verdictCode(interval, margin, outcome.better);
  const code = codeOf(primary.estimate.interval);
  const others = analyses.flatMap((answer) => (answer.kind === 'estimated' ? withInterval(answer.estimate) : []));
  const apart = others.flatMap((estimate) => {
    const own = codeOf(estimate.interval);
    return own === code ? [] : [{ estimate, code: own, because: reasonApart(primary.estimate, estimate) }];
  });
  return { kind: 'compared', code, others: others.length, apart };
}

function withInterval(estimate: Estimate): readonly EstimateWithInterval[] {
  return estimate.interval === undefined ? [] : [{ ...estimate, interval: estimate.interval }];
}

function reasonApart(primary: EstimateWithInterval, other: EstimateWithInterval): ReasonApart {
  const shift = other.estimate - primary.estimate;
  if (Math.abs(shift) > noteworthyShift * halfWidth(primary.interval)) return { kind: 'shifted', shift };
  const ratio = halfWidth(other.interval) / halfWidth(primary.interval);
  return Math.abs(ratio - 1) < alikeWidths ? { kind: 'limits-differ-little' } : { kind: 'wider', ratio };
}

function halfWidth({ lower, upper }: Interval): number {
  return (upper - lower) / 2;
}
