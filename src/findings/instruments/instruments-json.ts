import { reasonInWords } from '../../labels/index.js';
import type { CalibrationByUncertainties, GravimetricBudget } from '../../moisture/index.js';
import type { AnswerResult, BelowDetection, InstrumentFacts, MaterialCalibration } from './instrument-facts.js';

/** The instruments as they stand in `opinion.json`: the numbers of the page, without the single pairs. */
export function instrumentsJson(instruments: readonly InstrumentFacts[]) {
  return instruments.map(({ instrument, kind, isOutcome, unit, use, calibrations, answers, ...facts }) => ({
    instrument,
    kind,
    isOutcome,
    unit,
    scale: facts.scale ?? null,
    readings: use.readings,
    belowDetection: use.belowDetection,
    missing: use.missing,
    walls: use.walls,
    stations: use.stations,
    days: use.days,
    calibrations: calibrations.map(calibrationJson),
    drift:
      facts.drift?.kind === 'computed'
        ? { value: facts.drift.value.drift, interval: { ...facts.drift.value.interval }, days: facts.drift.value.days }
        : null,
    tracking:
      facts.tracking?.kind === 'computed'
        ? { correlation: facts.tracking.value.correlation, interval: { ...facts.tracking.value.interval } }
        : null,
    readers:
      facts.readers === undefined
        ? null
        : { repeatability: facts.readers.repeatability, reproducibility: facts.readers.reproducibility },
    answers: answers.map(({ scale, unit: own, result }) => ({ scale, unit: own, ...resultJson(result) })),
    belowLimit: facts.belowDetection === undefined ? null : belowJson(facts.belowDetection),
    budget: facts.budget === undefined ? null : budgetJson(facts.budget),
  }));
}

function calibrationJson({ material, unit, outcome }: MaterialCalibration) {
  if (outcome.kind === 'not-computed') return { material, unit, slope: null, reason: reasonInWords(outcome.reason) };
  const { calibration, readings, outside, agreement, concordance, monotone, byUncertainties } = outcome.value;
  const { line, range, onUnseenWalls, pairs, walls } = calibration;
  return {
    material,
    unit,
    slope: line.slope,
    intercept: line.intercept,
    slopeInterval: { ...line.slopeInterval },
    range: { ...range },
    pairs: pairs.length,
    walls,
    readings,
    readingsOutsideRange: outside,
    rootMeanSquareOnUnseenWalls: onUnseenWalls.rootMeanSquare,
    concordance:
      concordance.kind === 'computed'
        ? { estimate: concordance.value.estimate, interval: { ...concordance.value.interval } }
        : null,
    rootMeanSquareOfMonotone: monotone.kind === 'computed' ? monotone.value.onUnseenWalls.rootMeanSquare : null,
    york: byUncertainties?.kind === 'computed' ? yorkJson(byUncertainties.value) : null,
    limitsOfAgreement:
      agreement.kind === 'computed'
        ? { lower: agreement.value.lower.estimate, upper: agreement.value.upper.estimate }
        : null,
  };
}

function yorkJson({ line, onUnseenWalls, beyondStated }: CalibrationByUncertainties) {
  return {
    slope: line.slope,
    intercept: line.intercept,
    slopeInterval: { ...line.slopeInterval },
    rootMeanSquareOnUnseenWalls: onUnseenWalls.rootMeanSquare,
    beyondStated,
  };
}

function resultJson(result: AnswerResult) {
  if (result.kind === 'not-computed')
    return { estimate: null, interval: null, code: null, reason: reasonInWords(result.reason) };
  const { estimate, interval, code } = result.value;
  return { estimate, interval: { ...interval }, code: code ?? null };
}

function belowJson({ below, readings, walls, where, leftOut, likelihood, productLimit, bounds }: BelowDetection) {
  return {
    below,
    readings,
    walls,
    treated: { ...where.treated },
    untreated: { ...where.untreated },
    leftOut: resultJson(leftOut),
    likelihood: resultJson(likelihood),
    productLimit: resultJson(productLimit),
    bounds:
      bounds.kind === 'computed'
        ? { ...bounds.value }
        : { lower: null, upper: null, reason: reasonInWords(bounds.reason) },
  };
}

/** Of a core of median dry mass, in % by mass; the terms are those that the trial states. */
function budgetJson({ value, standardUncertainty, rows }: GravimetricBudget) {
  return {
    value,
    standardUncertainty,
    terms: rows
      .filter(({ standardUncertainty: stated }) => stated > 0)
      .map((row) => ({
        name: row.name,
        value: row.value,
        standardUncertainty: row.standardUncertainty,
        sensitivity: row.sensitivity,
        contribution: row.contribution,
        shareOfVariance: row.shareOfVariance,
      })),
  };
}
