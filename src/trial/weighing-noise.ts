import type { Instrument } from './protocol.js';

/**
 * Standard uncertainty of one weighing in grams: as the protocol states it; else of the balance’s resolution r, or of the smallest
 * step seen in the masses, r/√12.
 *
 * @example weighingOf({ resolution_g: 0.01 }, 0.001) // 0.002887
 * @source JCGM 100:2008, clause F.2.2.1 (from memory)
 */
export function weighingOf(
  { standard_uncertainty_g, resolution_g }: Pick<Instrument, 'standard_uncertainty_g' | 'resolution_g'>,
  massStep_g: number,
): number {
  return standard_uncertainty_g ?? (resolution_g ?? massStep_g) / Math.sqrt(12);
}

/** Standard uncertainties that noise may reach: our convention, the usual limit of what is put down to noise. */
const reach = 3;

/**
 * How much lighter than dry a core may be shown wet, or humid, by the noise of the balance alone: three times the standard uncertainty of
 * the difference of two weighings. Within it a small negative moisture is a reading like another; set to zero or refused, a dry wall
 * would come out wetter than it is.
 *
 * @param weighing_g standard uncertainty of one weighing
 * @example weighingNoise_g(0.01 / Math.sqrt(12)) // 0.01225
 * @source of a difference of independent weighings, s√2: JCGM 100:2008, equation 10 (from memory); three times: our convention
 */
export function weighingNoise_g(weighing_g: number): number {
  return reach * Math.SQRT2 * weighing_g;
}
