import { type Instrument, weighingOf } from '../trial/index.js';

/** The standard uncertainty of one weighing, and in one sentence where it comes from. */
export interface WeighingUncertainty {
  readonly standardUncertainty_g: number;
  readonly note: string;
}

/**
 * Standard uncertainty of one weighing in grams: as stated by the protocol; else from the balance’s resolution r as a
 * rectangular distribution of full width r, r/√12; else from the smallest step seen in the recorded masses.
 *
 * @example weighingUncertainty({ instrument: 'core', kind: 'gravimetric', resolution_g: 0.01 }, 0.01).standardUncertainty_g // 0.002887
 * @source JCGM 100:2008, clause F.2.2.1: resolution of a digital indication, r/√12 = 0.29 r (from memory)
 */
export function weighingUncertainty(instrument: Instrument, massStep_g: number): WeighingUncertainty {
  return { standardUncertainty_g: weighingOf(instrument, massStep_g), note: noteOf(instrument, massStep_g) };
}

function noteOf({ standard_uncertainty_g, resolution_g }: Instrument, massStep_g: number): string {
  if (standard_uncertainty_g !== undefined)
    return `standard uncertainty of one weighing ${standard_uncertainty_g} g, as the protocol states`;
  if (resolution_g !== undefined) return `the balance’s resolution of ${resolution_g} g, as the protocol states`;
  return `a balance resolution of ${massStep_g} g, read off the decimals of the recorded masses because the protocol states none`;
}
