import {
  type Answer,
  againstPassMark,
  answersByInstrument,
  baselineDifference,
  blindingByRole,
  type ComparisonDesign,
  carryOver,
  defensibleAnalyses,
  type Estimate,
  effectBeforeTreatment,
  effectOutOfReach,
  expectedFall,
  leaveOneOut,
  missingWalls,
  type PlacedWall,
  type Primary,
  readingsByKnowledge,
  secondaryOutcomes,
  shamAgainstControl,
  surrogateAudit,
  untreatedOutside,
} from '../../analysis/index.js';
import type { MoistureReading } from '../../moisture/index.js';
import { type ConfoundingStrength, confoundingOfDifference, pooledSpread } from '../../statistics/index.js';
import type { InstrumentFacts } from '../instruments/instrument-facts.js';
import type { VerdictCode } from '../opinion.js';
import { verdictCode } from '../verdict-code.js';
import type { Facts } from '../weaknesses/facts.js';
import { findThreats } from './find-threats.js';
import { belowTheLimit, calibratedAnswers } from './instrument-choices.js';
import type { Judging } from './judging.js';
import { turningPoints } from './turning-points.js';

interface Judged {
  readonly facts: Facts;
  readonly code: VerdictCode;
  readonly readings: readonly MoistureReading[];
  readonly design: ComparisonDesign;
  readonly analyses: readonly Answer[];
  /** With season or weather taken off. */
  readonly adjusted: readonly Answer[];
  readonly instruments: readonly InstrumentFacts[];
}

/**
 * What else could have made, hidden or turned the answer. Absent where there are no windows, because then there is no answer.
 *
 * @example judgeTrial({ facts, code, readings, design, analyses, adjusted, instruments })?.agreement // { agree: 14, of: 15 }
 */
export function judgeTrial({
  facts,
  code,
  readings,
  design,
  analyses,
  adjusted,
  instruments,
}: Judged): Judging | undefined {
  const { trial, primary } = facts;
  const { protocol } = trial;
  if (protocol.windows === undefined || design.walls.length === 0) return undefined;
  const outcome = readings.filter(({ instrument }) => instrument === protocol.outcome.instrument);
  const choices = [
    ...analyses,
    ...adjusted,
    ...defensibleAnalyses(trial, outcome, { design, stations: facts.stations }),
    ...calibratedAnswers(trial, instruments),
    ...belowTheLimit(instruments),
  ];
  const missing = missingWalls(design, lostUnits(facts, design));
  const confounding = protocol.allocation.method === 'chosen' ? strengthOf(primary, design) : undefined;
  const passMark = againstPassMark(trial, design);
  const numbers: Omit<Judging, 'threats'> = {
    choices,
    agreement: agreementOf(facts, choices),
    ...turningOf(facts, code),
    leaveOneOut: primary.kind === 'estimated' ? leaveOneOut(trial, outcome, design) : [],
    ...(missing === undefined ? {} : { missing }),
    blinding: blindingByRole(trial),
    knowledge: readingsByKnowledge(trial, outcome, { design, primary: asAnswer(primary) }),
    instruments: answersByInstrument(trial, readings),
    nothing: [
      effectBeforeTreatment(trial, outcome),
      effectOutOfReach(trial, outcome),
      ...shamAgainstControl(trial, outcome),
      ...untreatedOutside(trial, outcome),
      baselineDifference(trial, design),
      carryOver(trial, design),
    ],
    ...(protocol.selection === 'wettest' ? { fall: expectedFall(trial, outcome) } : {}),
    ...(confounding === undefined ? {} : { confounding }),
    secondary: secondaryOutcomes(trial, readings, primary.kind === 'estimated' ? primary.estimate.pValue : undefined),
    ...(passMark === undefined ? {} : { passMark }),
    standIns: standInsOf({ facts, readings, design }),
  };
  return { ...numbers, threats: findThreats(facts, numbers) };
}

/** Walls, or what counts as one, that were allotted and have no place in the comparison. */
function lostUnits({ units }: Facts, design: ComparisonDesign): readonly PlacedWall[] {
  const kept = new Set(design.walls.map(({ wall }) => wall));
  return units.allotted.filter(({ wall }) => !kept.has(wall));
}

function asAnswer(primary: Primary): Answer {
  if (primary.kind === 'estimated') return { kind: 'estimated', estimate: primary.estimate };
  const notEstimated = { id: 'wall-change', label: 'Difference of changes', reason: primary.reason };
  return { kind: 'not-estimated', notEstimated };
}

function agreementOf({ trial, primary }: Facts, choices: readonly Answer[]): Judging['agreement'] {
  const { margin, outcome } = trial.protocol;
  if (primary.kind !== 'estimated' || margin === undefined) return { agree: 0, of: 0 };
  const codeOf = ({ interval }: Estimate) => interval && verdictCode(interval, margin, outcome.better);
  const codes = [
    primary.estimate,
    ...choices.flatMap((one) => (one.kind === 'estimated' ? [one.estimate] : [])),
  ].flatMap((estimate) => codeOf(estimate) ?? []);
  return { agree: codes.filter((code) => code === codes[0]).length, of: codes.length };
}

function turningOf({ trial, primary }: Facts, code: VerdictCode): Pick<Judging, 'turning'> {
  const { margin, outcome } = trial.protocol;
  if (code === 'not-answerable' || primary.kind !== 'estimated' || margin === undefined) return {};
  return { turning: turningPoints(primary.estimate.interval, margin, outcome.better) };
}

function strengthOf(primary: Primary, { walls }: ComparisonDesign): ConfoundingStrength | undefined {
  if (primary.kind !== 'estimated' || primary.estimate.standardError === undefined) return undefined;
  const changes = (side: 'treated' | 'untreated') =>
    walls.filter((wall) => wall.side === side).map(({ change }) => change);
  const { standardDeviation } = pooledSpread(changes('treated'), changes('untreated'));
  if (!(standardDeviation > 0)) return undefined;
  const { estimate, standardError } = primary.estimate;
  const standardised = { difference: estimate / standardDeviation, standardError: standardError / standardDeviation };
  // Beyond this the ratio is a number without a meaning.
  return Math.abs(standardised.difference) > 20 ? undefined : confoundingOfDifference(standardised);
}

function standInsOf({ facts, readings, design }: Pick<Judged, 'facts' | 'readings' | 'design'>): Judging['standIns'] {
  const { instruments, outcome } = facts.trial.protocol;
  return instruments
    .filter(({ instrument }) => instrument !== outcome.instrument)
    .flatMap(({ instrument, kind }) => {
      const own = readings.filter((reading) => reading.instrument === instrument);
      return own.length === 0
        ? []
        : [
            {
              instrument,
              isVoltage: kind === 'potential',
              audit: surrogateAudit(facts.trial, design, own, { instrument }),
            },
          ];
    });
}
