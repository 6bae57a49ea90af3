import type { WallChange } from '../../analysis/index.js';
import {
  betweenReaders,
  type ChangeByBoth,
  fewestTracked,
  type GravimetricBudget,
  gravimetricBudget,
  instrumentDrift,
  type MoistureReading,
  type ReadingRises,
  readingOnScale,
  type TrackedChange,
  trackedChange,
  weighingUncertainty,
} from '../../moisture/index.js';
import { isoDay } from '../../plain/days.js';
import { present } from '../../plain/present.js';
import type { Instrument, ReadingScale, Trial } from '../../trial/index.js';
import { answerAsRead, answerCalibrated, answerLossCorrected, changesBy } from './answers-of.js';
import { belowDetectionOf } from './below-detection-of.js';
import { calibrationsOf } from './calibrations-of.js';
import { computed } from './computed.js';
import { directionOf } from './direction-of.js';
import type { Computed, DriftFacts, InstrumentFacts, InstrumentUse, MaterialCalibration } from './instrument-facts.js';
import { isMeter } from './is-meter.js';

/**
 * Each instrument of the protocol: what it measured, how it compares with the cores, and what it would have answered.
 *
 * @param readings every reading of the trial, as `moistureReadings` gives them
 * @example instrumentsOf(trial, moistureReadings(trial))[0]?.use.walls // 24
 */
export function instrumentsOf(trial: Trial, readings: readonly MoistureReading[]): readonly InstrumentFacts[] {
  const { instruments } = trial.protocol;
  const balance = instruments.find(({ kind }) => kind === 'gravimetric');
  const cores = balance === undefined ? [] : changesBy(trial, readings, balance.instrument);
  return instruments.map((instrument) => factsOf(trial, readings, instrument, { balance, cores }));
}

interface Reference {
  readonly balance: Instrument | undefined;
  readonly cores: readonly WallChange[];
}

function factsOf(
  trial: Trial,
  readings: readonly MoistureReading[],
  instrument: Instrument,
  { balance, cores }: Reference,
): InstrumentFacts {
  const { outcome } = trial.protocol;
  const { instrument: name, kind } = instrument;
  const isOutcome = name === outcome.instrument;
  const own = readings.filter((reading) => reading.instrument === name);
  const coresUnit = balance?.instrument === outcome.instrument ? outcome.unit : '% by mass';
  const unit = unitOf(instrument, isOutcome, outcome.unit, coresUnit);
  const { scale = 'linear' } = instrument;
  // The outcome answers in its own unit; beside it readings over decades are compared by their logarithms.
  const onScale = own.map((reading) => readingOf(reading, scale));
  const changes = changesBy(trial, onScale, name);
  const asRead = isOutcome ? changesBy(trial, own, name) : changes;
  const besideCores = isMeter(kind) && balance !== undefined && own.length > 0;
  const calibrations = besideCores ? calibrationsOf(trial, readings, instrument, coresUnit) : [];
  const drift = driftOf(trial, { name, scale }, calibrations);
  const below = belowDetectionOf(trial, own, name, unit);
  const readers = computed(() => betweenReaders(isOutcome ? own : onScale, name));
  const budget = kind === 'gravimetric' ? budgetOf(trial, instrument) : undefined;
  const answers = own.length === 0 ? [] : [answerAsRead(trial, asRead, unit)];
  return {
    instrument: name,
    kind,
    isOutcome,
    unit,
    ...(isMeter(kind) ? { readingRises: directionOf(trial, instrument), scale } : {}),
    use: useOf(own),
    calibrations,
    ...present({ drift }),
    ...(besideCores
      ? {
          tracking: trackingOf(both(cores, changes, directionOf(trial, instrument)), trial.protocol.confidence),
        }
      : {}),
    ...(readers.kind === 'computed' ? { readers: readers.value } : {}),
    ...present({ belowDetection: below }),
    answers: [
      ...answers,
      ...(besideCores ? [answerCalibrated(trial, own, name, calibrations)] : []),
      ...(own.length === 0 ? [] : answerLossCorrected(trial, asRead, { instrument, unit })),
    ],
    ...present({ budget }),
  };
}

function trackingOf(changes: readonly ChangeByBoth[], level: number): Computed<TrackedChange> {
  return computed(() => trackedChange(changes, level), {
    'too-few': { code: 'too-few-walls-by-both', walls: changes.length, needed: fewestTracked },
    'no-variation': { code: 'changes-do-not-vary' },
  });
}

function readingOf(reading: MoistureReading, scale: ReadingScale): MoistureReading {
  if (scale === 'linear' || reading.value.kind !== 'measured') return reading;
  return { ...reading, value: { kind: 'measured', value: readingOnScale(reading.value.value, scale) } };
}

function unitOf({ kind, scale }: Instrument, isOutcome: boolean, outcomeUnit: string, coresUnit: string): string {
  if (isOutcome || kind === 'direct') return outcomeUnit;
  if (kind === 'gravimetric') return coresUnit;
  if (kind === 'carbide') return '% by mass';
  if (kind === 'potential') return 'mV';
  return scale === 'logarithmic' ? 'log₁₀ of the index' : 'index';
}

function useOf(own: readonly MoistureReading[]): InstrumentUse {
  const days = [...new Set(own.map(({ day }) => day))].sort();
  const [first, last] = [days[0], days.at(-1)];
  const count = (kind: MoistureReading['value']['kind']) => own.filter(({ value }) => value.kind === kind).length;
  return {
    readings: own.length,
    belowDetection: count('below-detection'),
    missing: count('missing'),
    walls: new Set(own.map(({ wall }) => wall)).size,
    stations: new Set(own.map(({ wall, station }) => JSON.stringify([wall, station]))).size,
    days: days.length,
    ...(first === undefined || last === undefined ? {} : { first, last }),
  };
}

function driftOf(
  trial: Trial,
  { name, scale }: { readonly name: string; readonly scale: ReadingScale },
  calibrations: readonly MaterialCalibration[],
): Computed<DriftFacts> | undefined {
  const checks = (trial.checks ?? []).flatMap(({ instrument, date, block, value }) =>
    instrument === name && value.kind === 'measured'
      ? [{ day: isoDay(date), block, value: readingOnScale(value.value, scale) }]
      : [],
  );
  if (checks.length === 0) return undefined;
  const blocks = new Set(checks.map(({ block }) => block)).size;
  const reasons = {
    'too-few': { code: 'too-few-checks', checks: checks.length, blocks },
    'no-variation': { code: 'checks-on-one-day' },
  } as const;
  return computed(() => {
    const drift = instrumentDrift(checks, { level: trial.protocol.confidence });
    const [only, ...more] = calibrations;
    if (only?.outcome.kind !== 'computed' || more.length > 0) return drift;
    const { slope } = only.outcome.value.calibration.line;
    return { ...drift, inMoisture: { drift: drift.drift / slope, unit: only.unit } };
  }, reasons);
}

/** A meter that falls with moisture is turned round, so that the same direction is drier by both. */
function both(
  cores: readonly WallChange[],
  meter: readonly WallChange[],
  readingRises: ReadingRises,
): readonly ChangeByBoth[] {
  const byWall = new Map(meter.map(({ wall, change }) => [wall, change]));
  return cores.flatMap(({ wall, before, change }) => {
    const byMeter = byWall.get(wall);
    if (byMeter === undefined || before === undefined) return [];
    return [{ wall, byCores: change, byMeter: readingRises === 'with-moisture' ? byMeter : -byMeter }];
  });
}

/** The budget of the core with the median dry mass, from what a trial folder states: the balance, and the share lost in drilling. */
function budgetOf(trial: Trial, balance: Instrument): GravimetricBudget | undefined {
  const complete = trial.cores.flatMap(({ container_g, wet_g, dry_g }) =>
    wet_g === undefined || dry_g === undefined ? [] : [{ container_g, wet_g, dry_g }],
  );
  const sorted = complete.sort((a, b) => a.dry_g - a.container_g - (b.dry_g - b.container_g));
  const typical = sorted[Math.floor((sorted.length - 1) / 2)];
  if (typical === undefined) return undefined;
  const { standardUncertainty_g } = weighingUncertainty(balance, trial.source.massStep_g ?? 0);
  const none = { halfWidth_pp: 0 };
  const { drilling_loss_pct: expected_pct, drilling_loss_uncertainty_pct: standardUncertainty_pct = 0 } = balance;
  const drilling = expected_pct === undefined ? {} : { drilling: { expected_pct, standardUncertainty_pct } };
  return gravimetricBudget(
    typical,
    { weighing_g: standardUncertainty_g, drying_pct: 0, ...drilling, sampling: none, transport: none },
    { level: trial.protocol.confidence },
  );
}
