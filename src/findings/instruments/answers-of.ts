import {
  comparisonDesign,
  primaryDifference,
  type Reason,
  stationChanges,
  unitsOfComparison,
  type WallChange,
  wallChanges,
} from '../../analysis/index.js';
import { verdictCode } from '../../analysis/verdict-code.js';
import { type MoistureReading, readingOnScale } from '../../moisture/index.js';
import { present } from '../../plain/present.js';
import { type Interval, studentT } from '../../statistics/index.js';
import type { Instrument, Trial } from '../../trial/index.js';
import { notComputed } from './computed.js';
import type { Computed, InstrumentAnswer, MaterialCalibration } from './instrument-facts.js';

/** The changes of all walls of the comparison by one instrument; the outcome's after values where it was never read before. */
export function changesBy(
  trial: Trial,
  readings: readonly MoistureReading[],
  instrument: string,
): readonly WallChange[] {
  const own = readings.filter((reading) => reading.instrument === instrument);
  const asOutcome = withOutcome(trial, instrument);
  const { walls } = wallChanges(asOutcome, stationChanges(asOutcome, own).stations);
  return instrument === trial.protocol.outcome.instrument ? walls : walls.filter(({ before }) => before !== undefined);
}

/**
 * The primary comparison with one instrument, as it reads.
 *
 * @param unit of the readings: the verdict is given only where it is the margin's
 */
export function answerAsRead(trial: Trial, changes: readonly WallChange[], unit: string): InstrumentAnswer {
  const answer = differenceOf(trial, changes, unit);
  return { scale: 'as-read', unit, result: judged(trial, answer, unit) };
}

/**
 * The primary comparison with a meter whose readings its calibrations turn into moisture. The interval holds the uncertainty of
 * the slope beside that of the walls: u² = s² + (difference × u(slope)/slope)².
 */
export function answerCalibrated(
  trial: Trial,
  readings: readonly MoistureReading[],
  instrument: string,
  calibrations: readonly MaterialCalibration[],
): InstrumentAnswer {
  const unit = calibrations[0]?.unit ?? '';
  const refused = calibrations.find(({ outcome }) => outcome.kind === 'not-computed');
  if (calibrations.length === 0 || refused !== undefined) {
    const because: Reason =
      refused?.outcome.kind === 'not-computed' ? refused.outcome.reason : { code: 'no-cores-beside' };
    return { scale: 'calibrated', unit, result: notComputed({ code: 'not-calibrated', because }) };
  }
  const calibrated = new Map(
    calibrations.flatMap(({ material, outcome }) =>
      outcome.kind === 'computed' ? [[material, outcome.value.calibration] as const] : [],
    ),
  );
  const ofWall = new Map(trial.walls.map(({ wall, material = '' }) => [wall, calibrated.get(material)]));
  const inMoisture = readings.flatMap((reading): MoistureReading[] => {
    const own = ofWall.get(reading.wall);
    if (reading.instrument !== instrument || reading.value.kind !== 'measured' || own === undefined) return [];
    const { line, scale } = own;
    const value = (readingOnScale(reading.value.value, scale) - line.intercept) / line.slope;
    return [{ ...reading, value: { kind: 'measured', value } }];
  });
  const answer = differenceOf(trial, changesBy(trial, inMoisture, instrument), unit);
  const slopes = [...calibrated.values()].map(({ line }) => ({
    relative: Math.sqrt(line.uncertainty.varianceOfSlope) / Math.abs(line.slope),
    degreesOfFreedom: line.degreesOfFreedom ?? 1,
  }));
  // Of several materials the least certain slope stands for all: too wide rather than too narrow.
  const worst = slopes.reduce((one, other) => (other.relative > one.relative ? other : one));
  return { scale: 'calibrated', unit, result: judged(trial, widened(answer, worst), unit) };
}

/**
 * The primary comparison with cores as they stood in the wall, where the plan states the share f of their water that was lost in drilling:
 * every moisture, and so every change and the difference, divided by 1 − f. The interval holds the uncertainty of the share.
 */
export function answerLossCorrected(
  trial: Trial,
  changes: readonly WallChange[],
  { instrument, unit }: { readonly instrument: Instrument; readonly unit: string },
): readonly InstrumentAnswer[] {
  const { drilling_loss_pct: lost_pct, drilling_loss_uncertainty_pct: uncertainty_pct = 0 } = instrument;
  if (lost_pct === undefined) return [];
  const kept = 1 - lost_pct / 100;
  const inWall = changes.map((change) => ({
    ...change,
    ...(change.before === undefined ? {} : { before: change.before / kept }),
    after: change.after / kept,
    change: change.change / kept,
  }));
  const share = { relative: uncertainty_pct / 100 / kept, degreesOfFreedom: Number.POSITIVE_INFINITY };
  const answer = widened(differenceOf(trial, inWall, unit), share);
  return [{ scale: 'loss-corrected', unit, result: judged(trial, answer, unit) }];
}

interface Difference {
  readonly estimate: number;
  readonly interval: Interval;
  readonly standardError: number;
  readonly degreesOfFreedom: number;
  readonly walls: { readonly treated: number; readonly untreated: number };
}

function differenceOf(trial: Trial, changes: readonly WallChange[], unit: string): Computed<Difference> {
  const { design } = comparisonDesign(unitsOfComparison(trial, changes).units);
  const primary = primaryDifference(design, { level: trial.protocol.confidence, unit });
  if (primary.kind === 'not-estimated') return notComputed(primary.reason);
  const { estimate, interval, standardError = 0, degreesOfFreedom = 1, walls } = primary.estimate;
  return { kind: 'computed', value: { estimate, interval, standardError, degreesOfFreedom, walls } };
}

function widened(
  answer: Computed<Difference>,
  slope: { readonly relative: number; readonly degreesOfFreedom: number },
): Computed<Difference> {
  if (answer.kind === 'not-computed') return answer;
  const { estimate, standardError, degreesOfFreedom, interval } = answer.value;
  const ofSlope = Math.abs(estimate) * slope.relative;
  const total = Math.hypot(standardError, ofSlope);
  if (total === 0) return answer;
  // Welch and Satterthwaite; a share of nothing adds nothing.
  const [own, other] = [
    (standardError / total) ** 4 / degreesOfFreedom,
    (ofSlope / total) ** 4 / slope.degreesOfFreedom,
  ];
  const half = studentT(1 / (own + other)).upperQuantile((1 - interval.level) / 2) * total;
  const wide = { level: interval.level, lower: estimate - half, upper: estimate + half };
  return { kind: 'computed', value: { ...answer.value, interval: wide, standardError: total } };
}

function judged(trial: Trial, answer: Computed<Difference>, unit: string): InstrumentAnswer['result'] {
  if (answer.kind === 'not-computed') return answer;
  const { outcome, margin } = trial.protocol;
  const { estimate, interval, walls } = answer.value;
  const code =
    margin === undefined || unit !== outcome.unit ? undefined : verdictCode(interval, margin, outcome.better);
  return { kind: 'computed', value: { estimate, interval, walls, ...present({ code }) } };
}

function withOutcome(trial: Trial, instrument: string): Trial {
  const { protocol } = trial;
  return { ...trial, protocol: { ...protocol, outcome: { ...protocol.outcome, instrument } } };
}
