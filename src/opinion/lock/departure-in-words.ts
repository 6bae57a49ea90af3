import type { Departure, LockedPart } from '../../findings/lock/departures-from-lock.js';
import { quoteInWords } from '../../words/quantity.js';

const keyNames: Readonly<Record<string, string>> = {
  margin: 'margin',
  passMark: 'pass mark',
  windows: 'windows',
  claim: 'claim',
  outcome: 'outcome',
  secondary: 'further outcomes',
  arms: 'arms',
  compare: 'arms that are compared',
  allocation: 'allocation',
  selection: 'how walls came into the trial',
  screened: 'walls that were looked at',
  confidence: 'level of the intervals',
  adjustments: 'adjustments',
  calibration: 'rule for calibrating meters',
  dryBelow: 'value at which a wall is dry',
  instruments: 'instruments',
  blinding: 'blinding',
  treatment: 'treatment',
  against: 'source of water',
  unaffectedAbove_mm: 'height above which the treatment cannot act',
  claimedField_v_per_m: 'claimed field',
  arm: 'arm',
  block: 'block',
  site: 'site',
  wall: 'wall',
};

/** The parts of a plan, as they stand in a sentence. */
export const partNames: Readonly<Record<LockedPart, string>> = {
  margin: 'margin',
  windows: 'windows',
  outcome: 'outcome',
  arms: 'arms',
  walls: 'walls',
  analysis: 'analysis',
  instruments: 'instruments',
  conduct: 'conduct of the trial',
};

/**
 * What departs, without its values: `margin`, `arm of wall W03`.
 *
 * @example departedThing({ part: 'arms', key: 'arm', wall: 'W03' }) // 'arm of wall W03'
 */
export function departedThing({ key, wall }: Departure): string {
  const name = keyNames[key] ?? key;
  if (wall === undefined) return name;
  return key === 'wall' ? `wall ${wall}` : `${name} of wall ${wall}`;
}

/**
 * A value of a plan in words: a name or a number as it is, windows by their days, the rest as it stands in the file.
 *
 * @example plannedValue(2.5) // '2.5'
 */
export function plannedValue(value: unknown): string {
  if (value === undefined) return 'none';
  if (typeof value === 'number') return String(value);
  if (typeof value === 'string') return quoteInWords(value);
  if (isWindows(value)) {
    const { before, after } = value;
    return `before ${before.from} to ${before.to}, after ${after.from} to ${after.to}`;
  }
  return quoteInWords(JSON.stringify(value).replaceAll('"', ''));
}

interface Days {
  readonly from: unknown;
  readonly to: unknown;
}

function isWindows(value: unknown): value is { readonly before: Days; readonly after: Days } {
  return typeof value === 'object' && value !== null && 'before' in value && 'after' in value;
}
