import type { InstrumentFacts, MaterialCalibration } from './instrument-facts.js';

/** The instruments as they stand in `opinion.json`: the numbers of the page, without the single pairs. */
export function instrumentsJson(instruments: readonly InstrumentFacts[]) {
  return instruments.map(({ instrument, kind, isOutcome, unit, use, calibrations, answers, ...facts }) => ({
    instrument,
    kind,
    isOutcome,
    unit,
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
    answers: answers.map((answer) => ({
      scale: answer.scale,
      unit: answer.unit,
      ...(answer.result.kind === 'computed'
        ? {
            estimate: answer.result.value.estimate,
            interval: { ...answer.result.value.interval },
            code: answer.result.value.code ?? null,
          }
        : { estimate: null, interval: null, code: null, reason: answer.result.reason }),
    })),
  }));
}

function calibrationJson({ material, unit, outcome }: MaterialCalibration) {
  if (outcome.kind === 'not-computed') return { material, unit, slope: null, reason: outcome.reason };
  const { calibration, agreement } = outcome.value;
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
    rootMeanSquareOnUnseenWalls: onUnseenWalls.rootMeanSquare,
    limitsOfAgreement:
      agreement.kind === 'computed'
        ? { lower: agreement.value.lower.estimate, upper: agreement.value.upper.estimate }
        : null,
  };
}
