import { weighingNoise_g } from '../../trial/index.js';
import { checkDryMass, checkFinite, checkNotNegative } from '../checked-quantity.js';
import type { CoreMasses } from '../gravimetric-moisture.js';
import { MoistureError } from '../moisture-error.js';

/** A loss of water on the way to the balance: what is expected of it is added back, and the rest is uncertain. */
export interface WaterLoss {
  /** Percentage points on the dry basis; 0 unless given. */
  readonly expected_pp?: number;
  /** Anything within the expected ± this is equally likely. */
  readonly halfWidth_pp: number;
}

/** What is known of the errors between the wall and a core's moisture content. Place-to-place variation is not here. */
export interface GravimetricErrors {
  /** Standard uncertainty of one weighing. */
  readonly weighing_g: number;
  /** How many residuals that rests on; absent where it is taken as known. */
  readonly weighingDegreesOfFreedom?: number;
  /** Water left in (or crystal water driven out) at the dry weighing, ± percent of the dry mass. */
  readonly drying_pct: number;
  /** Water that the heat of drilling drives out. */
  readonly sampling: WaterLoss;
  /** Water lost between wall and balance. */
  readonly transport: WaterLoss;
}

export type GravimetricTerm =
  | 'wet weighing'
  | 'dry weighing'
  | 'container weighing'
  | 'drying'
  | 'sampling loss'
  | 'transport loss';

/** Refuses masses that cannot be those of a core. */
export function checkMasses(where: string, { container_g, wet_g, dry_g }: CoreMasses, weighing_g: number): void {
  checkDryMass(where, container_g, dry_g);
  checkFinite(where, 'wet mass', wet_g);
  if (dry_g - wet_g > weighingNoise_g(weighing_g))
    throw new MoistureError(
      where,
      'out-of-range',
      `needs a wet mass no lighter than the dry one beyond the noise of the balance, got ${wet_g} g and ${dry_g} g`,
    );
}

/** Refuses errors that are negative or no numbers. */
export function checkErrors(where: string, { weighing_g, drying_pct, sampling, transport }: GravimetricErrors): void {
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
