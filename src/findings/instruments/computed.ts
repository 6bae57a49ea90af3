import { isMoistureError } from '../../moisture/index.js';
import { isStatisticsError } from '../../statistics/index.js';
import type { Computed } from './instrument-facts.js';

/** Runs a computation that may refuse, and keeps the refusal without the name of the function that made it. */
export function computed<Value>(compute: () => Value): Computed<Value> {
  try {
    return { kind: 'computed', value: compute() };
  } catch (error) {
    if (!isMoistureError(error) && !isStatisticsError(error)) throw error;
    return { kind: 'not-computed', reason: `it ${error.message.slice(error.where.length).trim()}` };
  }
}
