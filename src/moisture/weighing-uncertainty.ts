import { type Instrument, weighingOf } from '../trial/index.js';

/** What the uncertainty of a weighing was taken from, in grams: as the plan states it, the balance’s resolution, or the smallest step of the masses. */
export type WeighingSource =
  | { readonly from: 'stated'; readonly uncertainty_g: number }
  | { readonly from: 'resolution'; readonly resolution_g: number }
  | { readonly from: 'decimals'; readonly step_g: number };

/** The standard uncertainty of one weighing, and where it comes from. */
export interface WeighingUncertainty {
  readonly standardUncertainty_g: number;
  readonly source: WeighingSource;
}

/**
 * Standard uncertainty of one weighing in grams: as stated by the protocol; else from the balance’s resolution r as a
 * rectangular distribution of full width r, r/√12; else from the smallest step seen in the recorded masses.
 *
 * @example weighingUncertainty({ instrument: 'core', kind: 'gravimetric', resolution_g: 0.01 }, 0.01).standardUncertainty_g // 0.002887
 * @source JCGM 100:2008, clause F.2.2.1: resolution of a digital indication, r/√12 = 0.29 r (from memory)
 */
export function weighingUncertainty(instrument: Instrument, massStep_g: number): WeighingUncertainty {
  return { standardUncertainty_g: weighingOf(instrument, massStep_g), source: sourceOf(instrument, massStep_g) };
}

function sourceOf({ standard_uncertainty_g, resolution_g }: Instrument, massStep_g: number): WeighingSource {
  if (standard_uncertainty_g !== undefined) return { from: 'stated', uncertainty_g: standard_uncertainty_g };
  if (resolution_g !== undefined) return { from: 'resolution', resolution_g };
  return { from: 'decimals', step_g: massStep_g };
}
