import { weighingNoise_g } from '../../trial/index.js';
import type { DryBasisMoisture } from '../basis/moisture-content.js';
import { checkDryMass, checkFinite, checkNotNegative } from '../checked-quantity.js';
import { MoistureError } from '../moisture-error.js';
import { checkCondition, describeCondition, type HumidCondition, isSameCondition } from './humid-condition.js';

/** Moisture that a sample takes from air of a stated humidity, on the dry basis. */
export interface HygroscopicMoisture extends DryBasisMoisture {
  readonly condition: HumidCondition;
}

/** What is above the hygroscopic part, on the dry basis: what liquid supply may explain. Negative where air alone would hold more. */
export interface ExcessMoisture extends DryBasisMoisture {
  readonly part: 'excess';
  readonly condition: HumidCondition;
}

/** Masses of one sample, in grams, container included; a container of zero means net masses. */
export interface HumidMasses {
  readonly container_g: number;
  /** At equilibrium with the humid air. */
  readonly humid_g: number;
  readonly dry_g: number;
}

/**
 * Hygroscopic moisture, h = (humid − dry)/(dry − container), in percent by mass, with the standard uncertainty that the
 * balance gives it.
 *
 * @throws MoistureError `out-of-range`, `not-finite`
 * @example hygroscopicMoisture({ container_g: 0, humid_g: 49.2, dry_g: 47.83 }, { setpoint_rh_pct: 75, temperature_c: 20 }, 0.005).value // 2.864
 * @source conditioning: EN ISO 12571 (scope seen)
 */
export function hygroscopicMoisture(
  masses: HumidMasses,
  condition: HumidCondition,
  weighing_g: number,
): HygroscopicMoisture {
  const where = 'hygroscopicMoisture';
  const { container_g, humid_g, dry_g } = masses;
  checkCondition(where, condition);
  checkDryMass(where, container_g, dry_g);
  checkNotNegative(where, 'uncertainty of a weighing', weighing_g, 'g');
  checkHeavier(where, 'humid', humid_g, { dry_g, weighing_g });
  const net_g = dry_g - container_g;
  const ratio = (humid_g - container_g) / net_g;
  const slopes = [1, ratio, container_g === 0 ? 0 : ratio - 1];
  return {
    basis: 'dry',
    unit: '% by mass',
    value: 100 * (ratio - 1),
    standardUncertainty: (100 * weighing_g * Math.hypot(...slopes)) / net_g,
    condition,
  };
}

/**
 * Excess of a moisture content over a hygroscopic one that was found on its own, for instance on crushed material from
 * the same place. Refused where the hygroscopic moisture was not found at the humidity that the batch states.
 *
 * A negative excess is kept: cut off at zero, the mean of a dry wall would come out wet.
 *
 * @param batch the condition that the batch's hygroscopic moistures are stated for
 * @throws MoistureError `humidity-differs`, `not-finite`
 * @example
 * const condition = { setpoint_rh_pct: 75, temperature_c: 20 };
 * const hygroscopic = hygroscopicMoisture({ container_g: 0, humid_g: 49.2, dry_g: 47.83 }, condition, 0.005);
 * excessMoisture({ basis: 'dry', unit: '% by mass', value: 9.471 }, hygroscopic, condition).value // 6.607
 * @source the logic of subtracting: BRE Digest 245 (from memory)
 */
export function excessMoisture(
  moisture: DryBasisMoisture,
  hygroscopic: HygroscopicMoisture,
  batch: HumidCondition,
): ExcessMoisture {
  const where = 'excessMoisture';
  checkCondition(where, batch);
  checkFinite(where, 'moisture content', moisture.value);
  checkFinite(where, 'hygroscopic moisture', hygroscopic.value);
  if (!isSameCondition(hygroscopic.condition, batch))
    throw new MoistureError(
      where,
      'humidity-differs',
      `needs hygroscopic moisture at the batch's ${describeCondition(batch)}, got it at ${describeCondition(hygroscopic.condition)}; condition the sample again`,
    );
  const { standardUncertainty: total } = moisture;
  const { standardUncertainty: part } = hygroscopic;
  return {
    part: 'excess',
    basis: 'dry',
    unit: '% by mass',
    value: moisture.value - hygroscopic.value,
    ...(total === undefined || part === undefined ? {} : { standardUncertainty: Math.hypot(total, part) }),
    condition: batch,
  };
}

/**
 * Excess of one sample weighed wet, humid and dry: (wet − humid)/(dry − container). Both parts share the dry weighing, so
 * its error nearly cancels, and the uncertainty is smaller than from `excessMoisture`.
 *
 * @throws MoistureError `out-of-range`, `not-finite`
 * @example excessOfSample({ container_g: 0, wet_g: 52.36, humid_g: 49.2, dry_g: 47.83 }, { setpoint_rh_pct: 75, temperature_c: 20 }, 0.005).value // 6.607
 */
export function excessOfSample(
  masses: HumidMasses & { readonly wet_g: number },
  condition: HumidCondition,
  weighing_g: number,
): ExcessMoisture {
  const where = 'excessOfSample';
  const { container_g, wet_g, humid_g, dry_g } = masses;
  checkCondition(where, condition);
  checkDryMass(where, container_g, dry_g);
  checkNotNegative(where, 'uncertainty of a weighing', weighing_g, 'g');
  checkHeavier(where, 'wet', wet_g, { dry_g, weighing_g });
  checkHeavier(where, 'humid', humid_g, { dry_g, weighing_g });
  const net_g = dry_g - container_g;
  const fraction = (wet_g - humid_g) / net_g;
  const slopes = [1, 1, fraction, container_g === 0 ? 0 : fraction];
  return {
    part: 'excess',
    basis: 'dry',
    unit: '% by mass',
    value: 100 * fraction,
    standardUncertainty: (100 * weighing_g * Math.hypot(...slopes)) / net_g,
    condition,
  };
}

function checkHeavier(
  where: string,
  name: string,
  mass_g: number,
  { dry_g, weighing_g }: { readonly dry_g: number; readonly weighing_g: number },
): void {
  checkFinite(where, `${name} mass`, mass_g);
  if (dry_g - mass_g > weighingNoise_g(weighing_g))
    throw new MoistureError(
      where,
      'out-of-range',
      `needs a ${name} mass no lighter than the dry one beyond the noise of the balance, got ${mass_g} g and ${dry_g} g`,
    );
}
