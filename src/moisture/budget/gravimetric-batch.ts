import { type CoreMasses, checkMasses } from '../core-masses.js';
import { checkErrors, drillingFactor, type GravimetricErrors, type GravimetricTerm } from './gravimetric-errors.js';
import { gravimetricSlopes } from './gravimetric-slopes.js';

/** Moisture and budget of many cores, a column for each quantity: percent by mass on the dry basis, and points. */
export interface GravimetricBatch {
  readonly value_pct: Float64Array;
  readonly standardUncertainty_pp: Float64Array;
  /** |sensitivity| × standard uncertainty of each term. The container weighing contributes nothing to net masses. */
  readonly contributions_pp: Readonly<Record<GravimetricTerm, Float64Array>>;
}

/**
 * The same as `gravimetricBudget` for each of many cores that share their errors, as columns. It has no coverage interval:
 * for that, and for the table of one core, use `gravimetricBudget`.
 *
 * @throws MoistureError as `gravimetricBudget`, and names the core by its place
 * @example gravimetricBatch([core, core], errors).standardUncertainty_pp // [0.185, 0.185]
 */
export function gravimetricBatch(cores: readonly CoreMasses[], errors: GravimetricErrors): GravimetricBatch {
  checkErrors('gravimetricBatch', errors);
  const column = () => new Float64Array(cores.length);
  const [wet, dry, container, drying, drilling] = [column(), column(), column(), column(), column()];
  const [value_pct, standardUncertainty_pp] = [column(), column()];
  const { weighing_g, drying_pct, sampling, transport } = errors;
  const factor = drillingFactor(errors);
  const share = (errors.drilling?.standardUncertainty_pct ?? 0) / 100;
  const leftIn_pct = drying_pct / Math.sqrt(3);
  const [sampling_pp, transport_pp] = [sampling.halfWidth_pp / Math.sqrt(3), transport.halfWidth_pp / Math.sqrt(3)];
  const lost_pp = (sampling.expected_pp ?? 0) + (transport.expected_pp ?? 0);
  for (const [index, masses] of cores.entries()) {
    checkMasses(`gravimetricBatch, core ${index}:`, masses, weighing_g);
    const slopes = gravimetricSlopes(masses);
    const ofWet = factor * slopes.wet * weighing_g;
    const ofDry = -factor * slopes.dry * weighing_g;
    const ofContainer = factor * slopes.container * weighing_g;
    const ofDrying = factor * slopes.drying * leftIn_pct;
    const held_pct = factor * slopes.moisture_pct;
    const ofDrilling = factor * Math.abs(held_pct) * share;
    wet[index] = ofWet;
    dry[index] = ofDry;
    container[index] = ofContainer;
    drying[index] = ofDrying;
    drilling[index] = ofDrilling;
    value_pct[index] = held_pct + lost_pp;
    standardUncertainty_pp[index] = Math.sqrt(
      ofWet ** 2 +
        ofDry ** 2 +
        ofContainer ** 2 +
        ofDrying ** 2 +
        ofDrilling ** 2 +
        sampling_pp ** 2 +
        transport_pp ** 2,
    );
  }
  return {
    value_pct,
    standardUncertainty_pp,
    contributions_pp: {
      'wet weighing': wet,
      'dry weighing': dry,
      'container weighing': container,
      drying,
      'drilling loss': drilling,
      'sampling loss': column().fill(sampling_pp),
      'transport loss': column().fill(transport_pp),
    },
  };
}
