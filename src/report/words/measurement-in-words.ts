import type { Measurement } from '../../findings/measurement.js';
import type { WeighingSource } from '../../moisture/index.js';

/**
 * How the uncertainty of one outcome reading was found, in a sentence or two.
 *
 * @example measurementInWords({ used: 0 }) // 'The trial states no uncertainty of a single reading of the outcome’s instrument.'
 */
export function measurementInWords({ typical }: Measurement): string {
  if (typical === undefined) return 'The trial states no uncertainty of a single reading of the outcome’s instrument.';
  return `Median standard uncertainty of one core from the balance alone: ${weighingInWords(typical.source)}. Drying, transport and the place of drilling are not in it.`;
}

function weighingInWords(source: WeighingSource): string {
  switch (source.from) {
    case 'stated':
      return `standard uncertainty of one weighing ${source.uncertainty_g} g, as the protocol states`;
    case 'resolution':
      return `the balance’s resolution of ${source.resolution_g} g, as the protocol states`;
    case 'decimals':
      return `a balance resolution of ${source.step_g} g, read off the decimals of the recorded masses because the protocol states none`;
  }
}
