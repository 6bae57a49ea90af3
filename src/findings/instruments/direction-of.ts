import type { ReadingRises } from '../../moisture/index.js';
import type { Instrument, Trial } from '../../trial/index.js';

/** Which way a meter runs: as the protocol states, else as the outcome's better side, which is the dry one, tells of its own meter. */
export function directionOf({ protocol: { outcome } }: Trial, { instrument, readingRises }: Instrument): ReadingRises {
  if (readingRises !== undefined) return readingRises;
  return outcome.instrument === instrument && outcome.better === 'higher' ? 'against-moisture' : 'with-moisture';
}
