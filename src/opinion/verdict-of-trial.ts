import { baselineAdjusted, type ComparisonDesign, smallestPOfDesign } from '../analysis/index.js';
import { dryingChecks } from '../findings/drying/drying-checks.js';
import { seriesAnswers, type TwoWallSeries } from '../findings/two-walls/two-wall-series.js';
import type { MoistureReading } from '../moisture/index.js';
import { present } from '../plain/present.js';
import type { Trial } from '../trial/index.js';
import { answerOfTrial, type TrialAnswer } from './answer-of-trial.js';
import { evidenceFrom } from './evidence.js';
import { threatNumbers } from './judging/threat-numbers.js';
import type { MarginOrigin } from './margin-of-trial.js';
import { seedOfRecords } from './seed-of-records.js';
import type { Facts } from './threats/facts.js';
import { findThreats, weaknessesOf } from './threats/find-threats.js';
import type { ThreatNumbers } from './threats/grounds.js';
import type { Threat } from './threats/threat.js';
import type { Verdict } from './verdict.js';
import { verdictSentence } from './verdict-sentence.js';

/** The verdict with everything that it was reasoned from, before its companions and the report. */
export interface TrialVerdict {
  /** The trial with its margin as a number, also where a pass mark gives it. */
  readonly trial: Trial;
  readonly marginOrigin: MarginOrigin;
  readonly readings: readonly MoistureReading[];
  /** Of the outcome, of walls read in both windows, those that stand alone in their block included. */
  readonly readInBoth: readonly MoistureReading[];
  readonly design: ComparisonDesign;
  readonly facts: Facts;
  readonly numbers: ThreatNumbers;
  readonly threats: readonly Threat[];
  readonly verdict: Verdict;
  readonly twoWalls?: TwoWallSeries;
}

/**
 * From a checked trial to its verdict, threats to validity and evidence, without whatever does not move them (bootstraps, mixed
 * models, drying curves, stand-ins).
 *
 *     answer ──5──▶ threats ──6──▶ evidence, verdict
 *     (1 to 4)      (one list)     (in words)
 *
 * @param seed of the drawn limits of a series of visits; from what was recorded unless told
 * @example verdictOfTrial(trial).verdict.code // 'worthwhile'
 */
export function verdictOfTrial(planned: Trial, seed?: number): TrialVerdict {
  // 1 to 4. From the readings to the primary answer.
  const answer = answerOfTrial(planned);
  const { trial, marginOrigin, readings, readInBoth, design, twoWalls } = answer;

  // 5. What threatens it.
  const facts = factsOf(answer, () => seed ?? seedOfRecords(planned));
  const numbers = threatNumbers({ facts, readings, design });
  const threats = findThreats({ facts, numbers });

  // 6. What may be said in spite of it.
  const verdict = verdictFrom(answer, facts, threats);
  const found = { trial, marginOrigin, readings, readInBoth, design, facts, numbers, threats, verdict };
  return { ...found, ...present({ twoWalls }) };
}

function factsOf(answer: TrialAnswer, seed: () => number): Facts {
  const { trial, readings, readInBoth, sides, units, design, twoWalls } = answer;
  const { protocol } = trial;
  const smallestPossibleP = smallestPOfDesign(design);
  const series =
    twoWalls === undefined
      ? []
      : seriesAnswers({ trial, used: readInBoth, design, twoWalls, units: units.units, seed: seed() });
  return {
    trial,
    marginOrigin: answer.marginOrigin,
    sides,
    walls: answer.walls,
    units,
    leftOutWalls: answer.leftOutWalls,
    stations: answer.stations,
    used: answer.used,
    leftOutReadings: answer.leftOutReadings,
    primary: answer.primary,
    analyses: [baselineAdjusted(design, { level: protocol.confidence, unit: protocol.outcome.unit }), ...series],
    ...present({ series: twoWalls, smallestPossibleP }),
    drying: dryingChecks(trial, readings, sides),
  };
}

function verdictFrom(answer: TrialAnswer, { trial, primary, walls }: Facts, threats: readonly Threat[]): Verdict {
  const evidence = evidenceFrom(threats);
  const code = evidence === 'none' ? 'not-answerable' : answer.code;
  const weaknesses = weaknessesOf(threats);
  const sentence = verdictSentence({ code, evidence, protocol: trial.protocol, primary, walls, weaknesses });
  return { code, sentence, evidence, weaknesses };
}
