import { present } from '../../plain/present.js';
import { checkFinite, checkPositive } from '../checked-quantity.js';
import { MoistureError } from '../moisture-error.js';

export type Polarity = 'point-minus-reference' | 'reference-minus-point';

/** How a voltage of a wall was taken; without this its sign means nothing. */
export interface PotentialSetup {
  /** What touches the wall, such as `stainless steel pin`. */
  readonly electrode: string;
  /** What it is measured against and where, such as `Cu/CuSO4 in the garden soil`. */
  readonly reference: string;
  readonly polarity: Polarity;
  /** Input impedance of the meter: a wall with a high resistance needs a high one. */
  readonly impedance_mohm?: number;
}

/** `reversed` where the leads were swapped against the polarity that the setup states. */
export type Lead = 'as-stated' | 'reversed';

/** What may be known of a setup before it is checked: a protocol need not state everything. */
export type StatedSetup = { readonly [Key in keyof PotentialSetup]?: PotentialSetup[Key] | undefined };

/**
 * A setup with everything that a sign needs.
 *
 * @throws MoistureError `unstated` without electrode, reference or polarity; `out-of-range` for an impedance of zero or less
 * @example checkedSetup({ electrode: 'steel pin', reference: 'steel pin in the floor', polarity: 'point-minus-reference' }).polarity // 'point-minus-reference'
 */
export function checkedSetup(stated: StatedSetup): PotentialSetup {
  const where = 'checkedSetup';
  const { electrode, reference, polarity, impedance_mohm } = stated;
  const missing = Object.entries({ electrode, reference, polarity }).filter(([, value]) => (value ?? '').trim() === '');
  if (electrode === undefined || reference === undefined || polarity === undefined || missing.length > 0) {
    const names = missing.map(([name]) => name).join(', ');
    throw new MoistureError(
      where,
      'unstated',
      `needs a stated ${names}; without it the sign of a potential means nothing`,
    );
  }
  if (impedance_mohm !== undefined) checkPositive(where, 'input impedance', impedance_mohm, 'MΩ');
  return { electrode, reference, polarity, ...present({ impedance_mohm }) };
}

/**
 * V(point) − V(reference) in mV from the meter's display: its sign turned for the other polarity, and for reversed leads.
 *
 * @throws MoistureError `not-finite`
 * @example
 * const setup = checkedSetup({ electrode: 'steel pin', reference: 'steel pin in the floor', polarity: 'point-minus-reference' });
 * potentialOfPoint(42, setup, 'reversed') // -42
 */
export function potentialOfPoint(shown_mv: number, setup: PotentialSetup, lead: Lead = 'as-stated'): number {
  checkFinite('potentialOfPoint', 'reading', shown_mv);
  const turned = (setup.polarity === 'reference-minus-point') !== (lead === 'reversed');
  // Zero stays plain zero.
  return turned ? 0 - shown_mv : shown_mv;
}
