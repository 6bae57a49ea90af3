import type { Reason } from '../../analysis/index.js';
import { isMoistureError, type MoistureFault } from '../../moisture/index.js';
import { orInstead } from '../../plain/unless-refused.js';
import { isStatisticsError, type StatisticsFault } from '../../statistics/index.js';
import type { Computed } from './instrument-facts.js';

/** What the faults of a computation mean for what was asked of it. */
type ReasonsByFault = Readonly<Partial<Record<StatisticsFault | MoistureFault, Reason>>>;

/** Runs a computation that may refuse, and turns its refusal into a reason; its message is for programmers. */
export function computed<Value>(compute: () => Value, reasons: ReasonsByFault = {}): Computed<Value> {
  return orInstead(
    (error) => isMoistureError(error) || isStatisticsError(error),
    () => ({ kind: 'computed', value: compute() }),
    ({ fault }) => notComputed(reasons[fault] ?? { code: 'refused', fault }),
  );
}

export function notComputed(reason: Reason): Computed<never> & { readonly kind: 'not-computed' } {
  return { kind: 'not-computed', reason };
}
