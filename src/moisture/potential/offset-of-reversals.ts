import { type Interval, mean, standardDeviation, studentT } from '../../statistics/index.js';
import { type InstrumentDrift, instrumentDrift } from '../calibration/instrument-drift.js';
import { checkFinite } from '../checked-quantity.js';
import { MoistureError } from '../moisture-error.js';

/** One pair has no scatter. */
export const fewestReversals = 2;

/** One place read twice in a row, leads as stated and then reversed, both as the meter showed them. */
export interface PairedReversal {
  /** ISO day. */
  readonly day: string;
  readonly asStated_mv: number;
  readonly reversed_mv: number;
}

export interface ReversalOffset {
  /** Half difference and half sum of each pair, in the order given: the voltage itself, and what the meter adds to it. */
  readonly pairs: readonly { readonly day: string; readonly voltage_mv: number; readonly offset_mv: number }[];
  readonly offset_mv: number;
  readonly standardError_mv: number;
  readonly interval: Interval;
  /** Of the offset over time; absent below three pairs, or with all on one day. */
  readonly drift?: InstrumentDrift;
}

/**
 * What a meter adds to every reading whichever way the leads are, from paired reversals: voltage (a − r)/2, offset (a + r)/2.
 * The interval is Student's over the pairs. What the electrodes add turns with the leads and stays in the voltage.
 *
 * @param options.level of the intervals, 0.95 unless given
 * @throws MoistureError `too-few` below two pairs, `not-finite`
 * @example
 * offsetOfReversals([
 *   { day: '2024-03-01', asStated_mv: 52, reversed_mv: -48 },
 *   { day: '2024-04-01', asStated_mv: 47, reversed_mv: -44 },
 * ]).offset_mv // 1.75
 */
export function offsetOfReversals(
  reversals: readonly PairedReversal[],
  { level = 0.95 }: { readonly level?: number } = {},
): ReversalOffset {
  const where = 'offsetOfReversals';
  if (reversals.length < fewestReversals)
    throw new MoistureError(
      where,
      'too-few',
      `needs at least ${fewestReversals} paired reversals, got ${reversals.length}`,
    );
  const pairs = reversals.map(({ day, asStated_mv, reversed_mv }) => {
    checkFinite(where, 'reading as stated', asStated_mv);
    checkFinite(where, 'reversed reading', reversed_mv);
    return { day, voltage_mv: (asStated_mv - reversed_mv) / 2, offset_mv: (asStated_mv + reversed_mv) / 2 };
  });
  const offsets = pairs.map(({ offset_mv }) => offset_mv);
  const [offset_mv, scatter] = [mean(offsets), standardDeviation(offsets)];
  const standardError_mv = scatter / Math.sqrt(pairs.length);
  const half = studentT(pairs.length - 1).upperQuantile((1 - level) / 2) * standardError_mv;
  const canDrift = pairs.length >= 3 && new Set(pairs.map(({ day }) => day)).size > 1;
  const checks = pairs.map((pair) => ({ day: pair.day, block: 'offset', value: pair.offset_mv }));
  return {
    pairs,
    offset_mv,
    standardError_mv,
    interval: { level, lower: offset_mv - half, upper: offset_mv + half },
    ...(canDrift ? { drift: instrumentDrift(checks, { level }) } : {}),
  };
}
