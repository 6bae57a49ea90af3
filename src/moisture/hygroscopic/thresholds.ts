import type { Source } from '../source-mark.js';

/** A published level of moisture. */
export interface MoistureThreshold {
  readonly value: number;
  readonly unit: '% by mass';
  /** None of them is one: a wall below it need not be dry. */
  readonly isPassMark: false;
  readonly source: Source;
}

export const moistureThresholds = {
  /** Below it at the base, a wall is unlikely to be severely affected by rising damp; not that it is dry, or that a treatment worked. */
  'bre-digest-245': {
    value: 5,
    unit: '% by mass',
    isPassMark: false,
    source: { document: 'BRE Digest 245 (revised 1986), as quoted by a trade article', mark: 'seen' },
  },
} as const satisfies Readonly<Record<string, MoistureThreshold>>;
