import { isoDay } from '../plain/days.js';
import { present } from '../plain/present.js';
import type { Core, Instrument, Reading, Recorded, Trial } from '../trial/index.js';
import { unitsPerPercentByMass } from '../trial/index.js';
import { toDryBasis } from './basis/convert.js';
import { gravimetricMoisture } from './gravimetric-moisture.js';
import { MoistureError } from './moisture-error.js';
import type { MoistureReading } from './moisture-reading.js';
import { weighingUncertainty } from './weighing-uncertainty.js';

/**
 * Every reading of a trial as a moisture reading: those of `readings.csv` as they stand, and each core as a reading of
 * the protocol's gravimetric instrument, in the outcome's unit where that instrument is the outcome's and in percent by
 * mass otherwise. So are carbide readings, which show percent of the wet mass. A core without both masses becomes a missing reading, so that it is counted.
 *
 * @throws MoistureError where masses are no core's, and where the outcome is gravimetric and its unit is none that cores can be computed in
 * @source carbide readings are on the wet basis and are converted by w/(1 − w): AASHTO T 217 (excerpts seen); definition as `toDryBasis`
 * @example moistureReadings(trial).length // 1943
 */
export function moistureReadings(trial: Trial): readonly MoistureReading[] {
  const carbide = new Map(
    trial.protocol.instruments.flatMap((instrument) =>
      instrument.kind === 'carbide' ? [[instrument.instrument, scaleOf(trial, instrument)] as const] : [],
    ),
  );
  const read = trial.readings.map((reading) => fromReading(reading, carbide.get(reading.instrument)));
  const balance = trial.protocol.instruments.find((instrument) => instrument.kind === 'gravimetric');
  if (balance === undefined || trial.cores.length === 0) return read;
  return [...read, ...fromCores(trial, balance)];
}

/** @param perPercent of a carbide reading: how many of its unit make one percent by mass */
function fromReading(reading: Reading, perPercent: number | undefined): MoistureReading {
  const { date, lead, ...rest } = reading;
  const asRead = lead === 'reversed' ? turned(rest.value) : rest.value;
  const value = perPercent === undefined ? asRead : onDryBasis(asRead, perPercent);
  return { ...rest, value, day: isoDay(date) };
}

/** A potential read with swapped leads, in the polarity that the protocol states. */
function turned(value: Recorded): Recorded {
  return value.kind === 'measured' ? { ...value, value: 0 - value.value } : value;
}

/** A carbide reading, % of the wet mass, on the dry basis: u = w/(1 − w). */
function onDryBasis(recorded: Recorded, perPercent: number): Recorded {
  const dry = (value: number) => perPercent * toDryBasis({ basis: 'wet', unit: '% by wet mass', value }).value;
  switch (recorded.kind) {
    case 'measured':
      return { kind: 'measured', value: dry(recorded.value) };
    case 'below-detection':
      return { kind: 'below-detection', limit: dry(recorded.limit) };
    case 'missing':
      return recorded;
  }
}

function fromCores(trial: Trial, balance: Instrument): readonly MoistureReading[] {
  const scale = scaleOf(trial, balance);
  const { standardUncertainty_g } = weighingUncertainty(balance, trial.source.massStep_g ?? 0);
  return trial.cores.map((core) => ({
    day: isoDay(core.date),
    wall: core.wall,
    station: core.station,
    instrument: balance.instrument,
    ...moistureOf(core, standardUncertainty_g, scale),
    ...present({ reader: core.reader, knewArm: core.knewArm }),
    origin: core.origin,
  }));
}

/** From percent by mass to the outcome's unit. Reading a folder has refused other units already. */
function scaleOf({ protocol: { outcome } }: Trial, balance: Instrument): number {
  if (outcome.instrument !== balance.instrument) return 1;
  const scale = unitsPerPercentByMass(outcome.unit);
  if (scale === undefined)
    throw new MoistureError(
      'moistureReadings',
      'unknown-name',
      `needs a unit that cores can be computed in, got ${outcome.unit}`,
    );
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
