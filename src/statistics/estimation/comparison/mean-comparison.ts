import { checkedResult } from '../../checked-input.js';
import { type TEstimate, tEstimate } from '../../models/linear/t-estimate.js';

/** How many units stand in each group. */
export interface GroupSizes {
  readonly x: number;
  readonly y: number;
}

/** A difference of means, x less y, judged by Student's t. The kind names what is assumed. */
export interface MeanComparison<Kind extends string> extends TEstimate {
  readonly kind: Kind;
  readonly n: GroupSizes;
}

export interface LevelOption {
  /** Confidence level as a fraction; 0.95 unless told. */
  readonly level?: number;
}

interface Parts<Kind extends string> {
  readonly kind: Kind;
  readonly estimate: number;
  readonly standardError: number;
  readonly degreesOfFreedom: number;
  readonly level: number;
  readonly n: GroupSizes;
}

/** Completes an estimate and its standard error with t, p and interval. */
export function judgedByT<Kind extends string>(parts: Parts<Kind>): MeanComparison<Kind> {
  const { kind, estimate, standardError, degreesOfFreedom, level, n } = parts;
  return checkedResult(kind, { kind, ...tEstimate(kind, { estimate, standardError, degreesOfFreedom }, level), n });
}
