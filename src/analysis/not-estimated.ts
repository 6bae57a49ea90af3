import { isStatisticsError, type StatisticsFault } from '../statistics/index.js';
import type { Answer } from './answer.js';

/** What a fault of a statistic means for walls, in words that end a sentence beginning with "because". */
export type ReasonsByFault = Readonly<Partial<Record<StatisticsFault, string>>>;

const usualReasons: ReasonsByFault = {
  'no-variation': 'the changes do not vary between walls',
  collinear: 'arm and block cannot be told apart',
  'empty-level': 'one of the arms has no wall with a change',
};

/**
 * Turns a statistic that could not be computed into an answer with its reason; passes on what is not a statistic's fault.
 *
 * @example notEstimated('bootstrap', 'Bootstrap, resampling walls', error)
 */
export function notEstimated(id: string, label: string, error: unknown, reasons: ReasonsByFault = {}): Answer {
  if (!isStatisticsError(error)) throw error;
  const reason = reasons[error.fault] ?? usualReasons[error.fault] ?? 'there are too few walls with a change for it';
  return { kind: 'not-estimated', notEstimated: { id, label, reason } };
}
