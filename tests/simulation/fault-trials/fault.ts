import type { Trial } from '../../../src/trial/index.js';
import type { Base, SeriesBase } from './base.js';
import type { Draws } from './own-random.js';

type Domain = 'allocation' | 'departures and timing' | 'missing data' | 'measurement' | 'choice of the result';

/** Something that goes wrong in trials, and what it leaves in the records. */
export interface Fault {
  readonly name: string;
  readonly domain: Domain;
  /** The search that ought to find it; any of them, where the same fact may be told in two ways. */
  readonly codes: readonly string[];
  /** What was done, for the table. */
  readonly planted: string;
  /** The sound trial in which it is planted. */
  readonly in: FaultBase;
  /** Fields of the trial that it changes, and it changes no others. */
  readonly changes: readonly string[];
  /** `slight` where chance may hide it from anybody. */
  readonly size?: 'slight';
  readonly plant: (trial: Trial, draws: Draws) => Trial;
}

export type FaultBase =
  | { readonly kind: 'walls'; readonly base: Partial<Base> }
  | { readonly kind: 'two-walls'; readonly base: Partial<SeriesBase> };

export const walls = (base: Partial<Base> = {}): FaultBase => ({ kind: 'walls', base });
export const twoWalls = (base: Partial<SeriesBase> = {}): FaultBase => ({ kind: 'two-walls', base });
