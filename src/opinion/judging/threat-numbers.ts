import {
  type Answer,
  answersByInstrument,
  baselineDifference,
  beforeInsidePairs,
  blindingByRole,
  type ComparisonDesign,
  carryOver,
  checksDrift,
  commonPlacesAnswer,
  copiedNumbers,
  daysByArm,
  defensibleAnalyses,
  effectBeforeTreatment,
  effectOutOfReach,
  expectedFall,
  guessesBeyondChance,
  knowledgeWhereCompared,
  lastDigits,
  leaveOneOut,
  lossesByPlace,
  missingWalls,
  type PlacedWall,
  type Primary,
  readingsByKnowledge,
  shamAgainstControl,
  spreadTooSmall,
  untreatedOutside,
  wallsTooDry,
  withAllBefore,
} from '../../analysis/index.js';
import { electricalOfTrial } from '../../findings/electrical/electrical-of-trial.js';
import { injectionOfTrial } from '../../findings/injection/injection-of-trial.js';
import { plasterOfTrial } from '../../findings/plaster/plaster-of-trial.js';
import type { MoistureReading } from '../../moisture/index.js';
import { present } from '../../plain/present.js';
import { type ConfoundingStrength, confoundingOfDifference, pooledSpread } from '../../statistics/index.js';
import { hasWindows } from '../../trial/index.js';
import type { Facts } from '../threats/facts.js';
import type { ThreatNumbers } from '../threats/grounds.js';
import { turningPoints } from './turning-points.js';

interface Judged {
  readonly facts: Facts;
  readonly readings: readonly MoistureReading[];
  readonly design: ComparisonDesign;
}

/** Everything that the searches for threats need beside the trial itself. */
export function threatNumbers({ facts, readings, design }: Judged): ThreatNumbers {
  const { trial, primary } = facts;
  const { protocol } = trial;
  const outcome = readings.filter(({ instrument }) => instrument === protocol.outcome.instrument);
  const atStart = withAllBefore(design, facts.stations);
  const before = beforeInsidePairs(atStart);
  const tooDry = wallsTooDry(trial, facts.walls);
  const checks = checksDrift(trial);
  const missing = missingWalls(design, lostUnits(facts, design));
  const confounding = protocol.allocation.method === 'chosen' ? strengthOf(primary, design) : undefined;
  const plaster = plasterOfTrial(trial, readings, facts.sides);
  const injection = injectionOfTrial(trial, facts.sides, {
    walls: facts.walls,
    areUnits: facts.units.kind === 'wall',
  });
  const electrical = electricalOfTrial(trial, facts.sides);
  const isCompared = hasWindows(trial) && design.walls.length > 0;
  return {
    ...turningOf(facts),
    leaveOneOut: primary.kind === 'estimated' ? leaveOneOut(trial, outcome, design) : [],
    choices: isCompared ? defensibleAnalyses(trial, outcome, { design, stations: facts.stations }) : [],
    atStart: atStart.walls,
    ...present({ before, missing }),
    losses: lossesByPlace(trial, outcome, design),
    commonPlaces: commonPlacesAnswer(trial, facts.stations, design),
    days: daysByArm(trial, facts.used, facts.sides),
    ...present({ tooDry, checks, plaster, injection, electrical }),
    copied: copiedNumbers(trial),
    digits: lastDigits(trial),
    spread: spreadTooSmall(trial, outcome),
    known: knowledgeWhereCompared(trial, facts.used),
    blinding: blindingByRole(trial),
    guesses: guessesBeyondChance(trial),
    knowledge: readingsByKnowledge(trial, outcome, { design, primary: asAnswer(primary) }),
    instruments: isCompared ? answersByInstrument(trial, readings) : [],
    nothing: isCompared
      ? [
          effectBeforeTreatment(trial, outcome),
          effectOutOfReach(trial, outcome),
          ...shamAgainstControl(trial, outcome),
          ...untreatedOutside(trial, outcome),
          baselineDifference(trial, atStart),
          carryOver(trial, design),
        ]
      : [],
    ...(protocol.selection === 'wettest' ? { fall: expectedFall(trial, outcome) } : {}),
    ...present({ confounding }),
  };
}

/** Walls, or what counts as one, that were allocated and have no place in the comparison. */
function lostUnits({ units }: Facts, design: ComparisonDesign): readonly PlacedWall[] {
  const kept = new Set(design.walls.map(({ wall }) => wall));
  return units.allotted.filter(({ wall }) => !kept.has(wall));
}

function asAnswer(primary: Primary): Answer {
  if (primary.kind === 'estimated') return { kind: 'estimated', estimate: primary.estimate };
  return { kind: 'not-estimated', notEstimated: { id: 'wall-change', reason: primary.reason } };
}

function turningOf({ trial, primary }: Facts): Pick<ThreatNumbers, 'turning'> {
  const { margin, outcome } = trial.protocol;
  if (primary.kind !== 'estimated') return {};
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
