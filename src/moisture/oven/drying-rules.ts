import type { Source } from '../source-mark.js';

/** When a sample counts as dry, as data: what was practised is recorded with each batch, not assumed. */
export interface DryingRule {
  readonly name: string;
  /** Least time between two weighings that count. */
  readonly interval_h: number;
  /** Largest change between successive weighings that still counts as constant. */
  readonly tolerance_pct: number;
  /** What the tolerance is a percentage of. For a fairly dry sample the water is a small part, and so is the tolerance. */
  readonly of: 'sample mass' | 'water mass';
  /** How many weighings in a row must agree. */
  readonly weighings: number;
  readonly source: Source;
}

/** Named rules that are in use. They differ fivefold, and a report says which was followed. */
export const dryingRules = {
  'iso-12570': {
    name: 'ISO 12570',
    interval_h: 24,
    tolerance_pct: 0.1,
    of: 'sample mass',
    weighings: 3,
    source: { document: 'ISO 12570', mark: 'from memory' },
  },
  'conservation-directory': {
    name: 'Building Conservation Directory',
    interval_h: 4,
    tolerance_pct: 0.5,
    of: 'sample mass',
    weighings: 2,
    // The text seen does not say what the 0.5 % is a percentage of; read as of the sample, as weighing rules usually are.
    source: { document: 'Building Conservation Directory 2024, pp. 39-40', mark: 'seen' },
  },
} as const satisfies Readonly<Record<string, DryingRule>>;
