import { checkNotNegative } from './checked-quantity.js';
import { type CoreMasses, checkMasses } from './core-masses.js';

/** Moisture by weighing, drying and weighing again. */
export interface GravimetricMoisture {
  readonly basis: 'dry';
  readonly unit: '% by mass';
  readonly value: number;
  readonly standardUncertainty: number;
}

const where = 'gravimetricMoisture';

/**
 * Moisture content on the dry basis, u = (wet − dry) / (dry − container), in percent by mass, with the standard
 * uncertainty that the balance alone gives it.
 *
 * The three weighings are taken as independent with the same standard uncertainty s, and combined by the law of
 * propagation with the sensitivity coefficients 1/m_d (wet), −m_w/m_d² (dry) and u/m_d (container), where m_w and m_d
 * are net masses. A container mass of zero means net masses and adds nothing. Drying, transport and place-to-place
 * variation are not in this figure; within a wall the last of them is far larger.
 *
 * A core weighed lighter wet than dry within the noise of the balance (`weighingNoise_g`) keeps its small negative moisture.
 *
 * @param weighingUncertainty_g standard uncertainty of one weighing, in grams
 * @throws MoistureError where masses are not finite, wet is lighter than dry beyond the noise of the balance, or dry is not heavier than the container
 * @example gravimetricMoisture(core, 0.005) // { basis: 'dry', unit: '% by mass', value: 9.471, standardUncertainty: 0.0155 }
 * @source definition: EN ISO 12570 and EN 16682 (from memory); propagation: JCGM 100:2008, equation 10 (from memory)
 */
export function gravimetricMoisture(masses: CoreMasses, weighingUncertainty_g: number): GravimetricMoisture {
  const { container_g, wet_g, dry_g } = masses;
  const netDry_g = dry_g - container_g;
  const netWet_g = wet_g - container_g;
  checkNotNegative(where, 'uncertainty of a weighing', weighingUncertainty_g, 'g');
  checkMasses(where, masses, weighingUncertainty_g);
  const fraction = (wet_g - dry_g) / netDry_g;
  const sensitivities = [1 / netDry_g, -netWet_g / netDry_g ** 2, container_g === 0 ? 0 : fraction / netDry_g];
  return {
    basis: 'dry',
    unit: '% by mass',
    value: 100 * fraction,
    standardUncertainty: 100 * weighingUncertainty_g * Math.hypot(...sensitivities),
  };
}
