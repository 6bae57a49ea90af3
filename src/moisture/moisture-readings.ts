import type { Core, Instrument, Reading, Recorded, Trial } from '../trial/index.js';
import { unitsPerPercentByMass } from '../trial/index.js';
import { gravimetricMoisture } from './gravimetric-moisture.js';
import type { MoistureReading } from './moisture-reading.js';
import { weighingUncertainty } from './weighing-uncertainty.js';

/**
 * Every reading of a trial as a moisture reading: those of `readings.csv` as they stand, and each core as a reading of
 * the protocol's gravimetric instrument, in the outcome's unit where that instrument is the outcome's and in percent by
 * mass otherwise. A core without both masses becomes a missing reading, so that it is counted.
 *
 * @throws RangeError where the outcome is gravimetric and its unit is none that cores can be computed in
 * @example moistureReadings(trial).length // 1943
 */
export function moistureReadings(trial: Trial): readonly MoistureReading[] {
  const read = trial.readings.map(fromReading);
  const balance = trial.protocol.instruments.find((instrument) => instrument.kind === 'gravimetric');
  if (balance === undefined || trial.cores.length === 0) return read;
  return [...read, ...fromCores(trial, balance)];
}

function fromReading(reading: Reading): MoistureReading {
  const { date, lead, ...rest } = reading;
  const value = lead === 'reversed' ? turned(rest.value) : rest.value;
  return { ...rest, value, day: date.slice(0, 10) };
}

/** A potential read with swapped leads, in the polarity that the protocol states. */
function turned(value: Recorded): Recorded {
  return value.kind === 'measured' ? { ...value, value: 0 - value.value } : value;
}

function fromCores(trial: Trial, balance: Instrument): readonly MoistureReading[] {
  const scale = scaleOf(trial, balance);
  const { standardUncertainty_g } = weighingUncertainty(balance, trial.source.massStep_g ?? 0);
  return trial.cores.map((core) => ({
    day: core.date.slice(0, 10),
    wall: core.wall,
    station: core.station,
    instrument: balance.instrument,
    ...moistureOf(core, standardUncertainty_g, scale),
    ...(core.reader === undefined ? {} : { reader: core.reader }),
    ...(core.knewArm === undefined ? {} : { knewArm: core.knewArm }),
    origin: core.origin,
  }));
}

/** From percent by mass to the outcome's unit. Reading a folder has refused other units already. */
function scaleOf({ protocol: { outcome } }: Trial, balance: Instrument): number {
  if (outcome.instrument !== balance.instrument) return 1;
  const scale = unitsPerPercentByMass(outcome.unit);
  if (scale === undefined) throw new RangeError(`moistureReadings cannot compute cores in the unit ${outcome.unit}`);
  return scale;
}

function moistureOf(
  core: Core,
  standardUncertainty_g: number,
  scale: number,
): { readonly value: Recorded; readonly standardUncertainty?: number } {
  const { container_g, wet_g, dry_g } = core;
  if (wet_g === undefined || dry_g === undefined) return { value: { kind: 'missing' } };
  const moisture = gravimetricMoisture({ container_g, wet_g, dry_g }, standardUncertainty_g);
  return {
    value: { kind: 'measured', value: moisture.value * scale },
    standardUncertainty: moisture.standardUncertainty * scale,
  };
}
