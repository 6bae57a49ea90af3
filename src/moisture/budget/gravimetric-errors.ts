import { checkNotNegative } from '../checked-quantity.js';
import { MoistureError } from '../moisture-error.js';

/** A loss of water on the way to the balance: what is expected of it is added back, and the rest is uncertain. */
export interface WaterLoss {
  /** Percentage points on the dry basis; 0 unless given. */
  readonly expected_pp?: number;
  /** Anything within the expected ± this is equally likely. */
  readonly halfWidth_pp: number;
}

/**
 * A share of the core's own water that is lost, as the heat of drilling drives it out: in proportion, so that a wet core loses more than a dry
 * one, and what is lost before and after does not cancel.
 */
export interface ShareLost {
  /** Percent of the water that the core held in the wall; 0 unless given. */
  readonly expected_pct?: number;
  /** In points of that percentage. */
  readonly standardUncertainty_pct: number;
}

/** What is known of the errors between the wall and a core's moisture content. Place-to-place variation is not here. */
export interface GravimetricErrors {
  /** Standard uncertainty of one weighing. */
  readonly weighing_g: number;
  /** How many residuals that rests on; absent where it is taken as known. */
  readonly weighingDegreesOfFreedom?: number;
  /** Water left in (or crystal water driven out) at the dry weighing, ± percent of the dry mass. */
  readonly drying_pct: number;
  /** Water lost in sampling that does not depend on how much there was; a share of it is `drilling`. */
  readonly sampling: WaterLoss;
  /** Share of the water that the heat of drilling drives out; none unless given. */
  readonly drilling?: ShareLost;
  /** Water lost between wall and balance. */
  readonly transport: WaterLoss;
}

export type GravimetricTerm =
  | 'wet weighing'
  | 'dry weighing'
  | 'container weighing'
  | 'drying'
  | 'drilling loss'
  | 'sampling loss'
  | 'transport loss';

/** Refuses errors that are negative or no numbers. */
export function checkErrors(where: string, errors: GravimetricErrors): void {
  const { weighing_g, drying_pct, drilling, sampling, transport } = errors;
  const { expected_pct = 0, standardUncertainty_pct = 0 } = drilling ?? {};
  checkNotNegative(where, 'uncertainty of the share lost in drilling', standardUncertainty_pct, '%');
  checkNotNegative(where, 'share lost in drilling', expected_pct, '%');
  if (expected_pct >= 100)
    throw new MoistureError(where, 'out-of-range', `needs less than all water lost in drilling, got ${expected_pct} %`);

  checkNotNegative(where, 'uncertainty of a weighing', weighing_g, 'g');
  checkNotNegative(where, 'half-width for drying', drying_pct, '%');
  for (const [name, loss] of [
    ['sampling', sampling],
    ['transport', transport],
  ] as const) {
    checkNotNegative(where, `half-width of the ${name} loss`, loss.halfWidth_pp, 'points');
    checkNotNegative(where, `expected ${name} loss`, loss.expected_pp ?? 0, 'points');
  }
}

/** By how much what the core still held has to be multiplied for what it held in the wall: 1/(1 − f). */
export function drillingFactor({ drilling }: Pick<GravimetricErrors, 'drilling'>): number {
  return 1 / (1 - (drilling?.expected_pct ?? 0) / 100);
}
