import { checkedResult, checkFinite } from '../../checked-input.js';
import { StatisticsError } from '../../statistics-error.js';

export interface ShiftToTarget {
  readonly kind: 'shift-to-target';
  /** By how much the missing units would have to differ from those observed beside them, signed. */
  readonly shift: number;
  /** Share of all units that are missing. */
  readonly missingShare: number;
}

/**
 * Tipping point: the shift of the missing units of one group, against the mean of those observed in it, that would bring the
 * number given to its target. With a share f missing, a mean moves by f times the shift, and the error that goes with it
 * stays that of the observed units (a pattern-mixture model; missing units that are like the observed ones have shift 0).
 *
 * @param from the number as it stands: an estimate, or a limit of its interval
 * @param to where the conclusion would change, for instance 0
 * @param group `observed` and `missing` units; `sign`: 1 where the group's mean enters the number with plus, -1 with minus
 * @throws StatisticsError `too-few` where none is missing or none observed, `not-finite`, `out-of-range`
 * @example shiftToTarget({ from: -0.5, to: 0, group: { observed: 9, missing: 1, sign: 1 } }).shift // 5
 * @source Permutt 2016, Stat. Med. 35:2876-2884 (from memory)
 */
export function shiftToTarget(question: {
  readonly from: number;
  readonly to: number;
  readonly group: { readonly observed: number; readonly missing: number; readonly sign: 1 | -1 };
}): ShiftToTarget {
  const { from, to, group } = question;
  const { observed, missing, sign } = group;
  checkFinite('shiftToTarget', 'from', from);
  checkFinite('shiftToTarget', 'to', to);
  for (const [name, count] of Object.entries({ observed, missing })) {
    if (Number.isSafeInteger(count) && count > 0) continue;
    throw new StatisticsError('shiftToTarget', 'too-few', `needs at least one ${name} unit, got ${count}`);
  }
  const missingShare = missing / (observed + missing);
  const shift = (sign * (to - from)) / missingShare;
  return checkedResult('shiftToTarget', { kind: 'shift-to-target', shift, missingShare });
}
