import { present } from '../plain/present.js';
import { orInstead } from '../plain/unless-refused.js';
import { isStatisticsError, type StatisticsFault } from '../statistics/index.js';
import type { Answer } from './answer.js';
import type { Named } from './estimate.js';
import type { Reason } from './reason.js';

/** What a fault of a statistic means for walls. */
export type ReasonsByFault = Readonly<Partial<Record<StatisticsFault, Reason>>>;

const usualReasons: ReasonsByFault = {
  'no-variation': { code: 'changes-do-not-vary' },
  collinear: { code: 'arm-is-block' },
  'empty-level': { code: 'empty-arm' },
};

/**
 * Turns a statistic that could not be computed into an answer with its reason; passes on what is not a statistic's fault.
 *
 * @example notEstimated({ id: 'bootstrap' }, error)
 */
export function notEstimated(named: Named, error: unknown, reasons: ReasonsByFault = {}): Answer {
  if (!isStatisticsError(error)) throw error;
  return refused(named, reasons[error.fault] ?? usualReasons[error.fault] ?? { code: 'too-few-walls' });
}

/**
 * An answer, or the reason why the statistic behind it could not be computed.
 *
 * @example estimatedUnlessRefused({ id: 'bootstrap' }, () => answer)
 */
export function estimatedUnlessRefused(named: Named, compute: () => Answer, reasons: ReasonsByFault = {}): Answer {
  return orInstead(isStatisticsError, compute, (error) => notEstimated(named, error, reasons));
}

/** An answer that was not made, for a reason known beforehand. */
export function refused({ id, about }: Named, reason: Reason): Answer {
  return { kind: 'not-estimated', notEstimated: { id, ...present({ about }), reason } };
}
