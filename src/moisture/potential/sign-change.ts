import { neighboursIn } from '../../plain/in-order.js';
import { normal } from '../../statistics/index.js';
import { checkFinite, checkPositive } from '../checked-quantity.js';
import { MoistureError } from '../moisture-error.js';

export type Sign = 'positive' | 'negative';

/** V(point) − V(reference) of one wall at one visit. */
export interface PotentialAtVisit {
  /** ISO day, so that text order is order in time. */
  readonly day: string;
  readonly voltage_mv: number;
  readonly standardUncertainty_mv: number;
}

/** What the visits allow to be said of a wall's sign. Only visits whose sign is clear count; the others lie between. */
export type SignChange =
  | {
      readonly kind: 'changed';
      readonly from: Sign;
      readonly to: Sign;
      /** Last day with the old sign and first with the new one: it happened between them. */
      readonly after: string;
      readonly by: string;
      readonly unclearVisits: number;
    }
  | { readonly kind: 'unchanged'; readonly sign: Sign; readonly unclearVisits: number }
  | { readonly kind: 'back-and-forth'; readonly changes: number; readonly unclearVisits: number }
  | { readonly kind: 'unclear'; readonly unclearVisits: number };

const where = 'signChange';

/**
 * When a wall's potential changed its sign, by bracketing: a visit's sign is clear where its voltage is further from zero
 * than z times its standard uncertainty, with z shared out over the visits (Bonferroni), so that all signs called clear are
 * right together with at least the level. The change lies between the last visit with the old sign and the first with the
 * new; nothing is assumed of how the voltage moved between visits. It says when, and nothing about why.
 *
 * @param visits in order of time
 * @param options.level 0.95 unless given
 * @throws MoistureError `too-few` below two visits, `out-of-order`, `not-finite`, `out-of-range` for an uncertainty not above zero
 * @example
 * const visits = [['2024-05-02', 30], ['2024-06-03', -28]].map(([day, voltage_mv]) => ({ day, voltage_mv, standardUncertainty_mv: 3 }));
 * signChange(visits) // { kind: 'changed', from: 'positive', to: 'negative', after: '2024-05-02', by: '2024-06-03', unclearVisits: 0 }
 */
export function signChange(
  visits: readonly PotentialAtVisit[],
  { level = 0.95 }: { readonly level?: number } = {},
): SignChange {
  checkVisits(visits);
  if (!(level > 0 && level < 1))
    throw new MoistureError(where, 'out-of-range', `needs a level between 0 and 1 such as 0.95, got ${level}`);
  const z = normal().upperQuantile((1 - level) / 2 / visits.length);
  const clear = visits.filter((visit) => Math.abs(visit.voltage_mv) > z * visit.standardUncertainty_mv);
  const unclearVisits = visits.length - clear.length;
  const [first] = clear;
  if (first === undefined) return { kind: 'unclear', unclearVisits };
  const turns = neighboursIn(clear).flatMap(([before, visit]) =>
    signOf(visit) === signOf(before) ? [] : [{ before, visit }],
  );
  const [turn] = turns;
  if (turn === undefined) return { kind: 'unchanged', sign: signOf(first), unclearVisits };
  if (turns.length > 1) return { kind: 'back-and-forth', changes: turns.length, unclearVisits };
  const { before, visit } = turn;
  return { kind: 'changed', from: signOf(before), to: signOf(visit), after: before.day, by: visit.day, unclearVisits };
}

function signOf({ voltage_mv }: PotentialAtVisit): Sign {
  return voltage_mv > 0 ? 'positive' : 'negative';
}

function checkVisits(visits: readonly PotentialAtVisit[]): void {
  if (visits.length < 2) throw new MoistureError(where, 'too-few', `needs at least 2 visits, got ${visits.length}`);
  visits.forEach(({ day, voltage_mv, standardUncertainty_mv }, k) => {
    checkFinite(where, 'voltage', voltage_mv);
    checkPositive(where, 'standard uncertainty', standardUncertainty_mv, 'mV');
    const before = visits[k - 1];
    if (before !== undefined && day <= before.day)
      throw new MoistureError(
        where,
        'out-of-order',
        `needs one voltage a visit in order of time, got ${day} twice or late`,
      );
  });
}
