import { isMoistureError } from '../../moisture/index.js';
import { orInstead } from '../../plain/unless-refused.js';
import { isStatisticsError } from '../../statistics/index.js';
import type { Computed } from './instrument-facts.js';

/** Runs a computation that may refuse, and keeps the refusal without the name of the function that made it. */
export function computed<Value>(compute: () => Value): Computed<Value> {
  return orInstead(
    (error) => isMoistureError(error) || isStatisticsError(error),
    () => ({ kind: 'computed', value: compute() }),
    (error) => ({ kind: 'not-computed', reason: `it ${error.message.slice(error.where.length).trim()}` }),
  );
}
