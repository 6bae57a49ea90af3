import { checkFinite, checkNotNegative } from '../checked-quantity.js';
import { MoistureError } from '../moisture-error.js';

/** Voltage and current at one time. */
export interface ElectricalReading {
  readonly time_s: number;
  readonly voltage_v: number;
  readonly current_a: number;
}

/** Standard uncertainties of single readings, independent from one to the next, and of the scales, common to all. */
export interface ElectricalErrors {
  readonly voltage_v: number;
  readonly current_a: number;
  /** Relative, such as 0.01 for 1 %; zero unless given. */
  readonly voltageScale?: number;
  readonly currentScale?: number;
}

export interface UncertainValue {
  readonly value: number;
  readonly standardUncertainty: number;
}

/** At each time R = V/I and P = V·I; over all of it the charge ∫I dt and the energy ∫V·I dt. */
export interface ElectricalSeries {
  /** Only of the times at which a current flowed. */
  readonly resistance_ohm: readonly (UncertainValue & { readonly time_s: number })[];
  readonly power_w: readonly UncertainValue[];
  readonly charge_c: UncertainValue;
  readonly energy_j: UncertainValue;
}

const where = 'electricalSeries';

/**
 * Resistance, power, charge and energy of a voltage and current series, the last two by the trapezoid rule, each with its
 * standard uncertainty by the law of propagation. What happened between the readings is not in the uncertainty.
 *
 * @throws MoistureError `too-few` below two readings, `out-of-order`, `not-finite`, `out-of-range` for a negative uncertainty
 * @example
 * const readings = [0, 600, 1200].map((time_s) => ({ time_s, voltage_v: 12, current_a: 0.06 }));
 * electricalSeries(readings, { voltage_v: 0.05, current_a: 0.004 }).charge_c // { value: 72, standardUncertainty: 2.939 }
 */
export function electricalSeries(readings: readonly ElectricalReading[], errors: ElectricalErrors): ElectricalSeries {
  const { voltage_v: uV, current_a: uI, voltageScale = 0, currentScale = 0 } = errors;
  checkSeries(readings, errors);
  const scale = Math.hypot(voltageScale, currentScale);
  const weighted = readings.map((reading, k) => {
    const [before, after] = [readings[k - 1] ?? reading, readings[k + 1] ?? reading];
    return { reading, weight: (after.time_s - before.time_s) / 2 };
  });
  const total = (of: (reading: ElectricalReading) => number) =>
    weighted.reduce((sum, { reading, weight }) => sum + weight * of(reading), 0);
  const independent = (of: (reading: ElectricalReading) => number) =>
    Math.hypot(...weighted.map(({ reading, weight }) => weight * of(reading)));
  const charge = total(({ current_a }) => current_a);
  const energy = total(({ voltage_v, current_a }) => voltage_v * current_a);
  const ofPower = ({ voltage_v, current_a }: ElectricalReading) => Math.hypot(voltage_v * uI, current_a * uV);
  const flowing = readings.filter(({ current_a }) => current_a !== 0);
  return {
    resistance_ohm: flowing.map((reading) => {
      const { time_s, voltage_v, current_a } = reading;
      const value = voltage_v / current_a;
      return { time_s, value, standardUncertainty: Math.hypot(ofPower(reading) / current_a ** 2, value * scale) };
    }),
    power_w: readings.map((reading) => {
      const value = reading.voltage_v * reading.current_a;
      return { value, standardUncertainty: Math.hypot(ofPower(reading), value * scale) };
    }),
    charge_c: {
      value: charge,
      standardUncertainty: Math.hypot(
        independent(() => uI),
        charge * currentScale,
      ),
    },
    energy_j: { value: energy, standardUncertainty: Math.hypot(independent(ofPower), energy * scale) },
  };
}

function checkSeries(readings: readonly ElectricalReading[], errors: ElectricalErrors): void {
  if (readings.length < 2)
    throw new MoistureError(where, 'too-few', `needs at least 2 readings, got ${readings.length}`);
  for (const [name, value] of Object.entries(errors)) checkNotNegative(where, `uncertainty (${name})`, value, '');
  readings.forEach(({ time_s, voltage_v, current_a }, k) => {
    checkFinite(where, 'time', time_s);
    checkFinite(where, 'voltage', voltage_v);
    checkFinite(where, 'current', current_a);
    const before = readings[k - 1];
    if (before !== undefined && time_s <= before.time_s)
      throw new MoistureError(
        where,
        'out-of-order',
        `needs times that increase, got ${time_s} s after ${before.time_s} s`,
      );
  });
}
