import {
  comparisonDesign,
  type Primary,
  primaryDifference,
  unitsOfComparison,
  type VerdictCode,
  verdictCode,
  wallChanges,
} from '../../analysis/index.js';
import { answerOfTrial } from '../../opinion/answer-of-trial.js';
import type { Trial } from '../../trial/index.js';
import { simulateTrial } from '../simulated-wall/simulate-trial.js';
import { simulateChanges } from '../simulated-wall/simulated-changes.js';
import type { SimulatedDesign } from '../simulated-wall/simulated-design.js';

/** A verdict without its threats, and the primary answer behind it. */
export interface QuickVerdict {
  readonly code: VerdictCode;
  readonly primary: Primary;
}

/**
 * The verdict of a simulated trial by the primary analysis and the rule alone: what `verdictOfTrial` says, without looking for threats. A
 * fatal threat, which would make it `not-answerable`, is not seen; the designs that are simulated have none.
 *
 * @example quickVerdict(plainDesign, 1).code // 'no-worthwhile-effect'
 */
export function quickVerdict(design: SimulatedDesign, seed: number): QuickVerdict {
  const isSeries = design.treated === 1 && design.untreated === 1;
  const primary = isSeries ? answerOfTrial(simulateTrial(design, seed).trial).primary : answerOfWalls(design, seed);
  if (primary.kind === 'not-estimated') return { code: 'not-answerable', primary };
  const margin = design.instrument === 'meter' ? 5 * design.margin : design.margin;
  return { code: verdictCode(primary.estimate.interval, margin, 'lower'), primary };
}

function answerOfWalls(design: SimulatedDesign, seed: number): Primary {
  const { stations, ...planned } = simulateChanges(design, seed);
  const trial: Trial = { ...planned, ...withoutReadings };
  const { units } = unitsOfComparison(trial, wallChanges(trial, stations).walls);
  return primaryDifference(comparisonDesign(units).design, optionsOf(trial));
}

/** What the primary analysis of changes does not look at. */
const withoutReadings = {
  ...{ stations: [], readings: [], cores: [], climate: [], beliefs: [], events: [] },
  source: { fingerprint: '', files: [] },
} as const;

function optionsOf({ protocol: { confidence, outcome } }: Trial) {
  return { level: confidence, unit: outcome.unit };
}
