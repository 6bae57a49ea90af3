import { weighingNoise_g } from '../trial/index.js';
import { checkDryMass, checkFinite } from './checked-quantity.js';
import { MoistureError } from './moisture-error.js';

/** Masses in grams, container included; `container_g` is zero where the masses are net. */
export interface CoreMasses {
  readonly container_g: number;
  readonly wet_g: number;
  readonly dry_g: number;
}

/** Refuses masses that are no core's: the dry one no heavier than the container, or the wet one lighter than the dry beyond the noise of the balance. */
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
