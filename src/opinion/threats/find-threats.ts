import { reasonInWords } from '../../labels/index.js';
import { present } from '../../plain/present.js';
import type { Seriousness, Weakness } from '../verdict.js';
import { armsPooled, wallsNotDescribed, wallsUnlike } from './allocation/arms.js';
import { beforeValuesUnlike, treatedWallsWettest, wallsChosenWettest } from './allocation/baseline.js';
import {
  armsConfoundedWithBlocks,
  armsUnequal,
  noTreatedWalls,
  noUntreatedWalls,
  oneWallAnArm,
  tooFewWalls,
} from './allocation/design.js';
import { allocationNotStated, notRandomised } from './allocation/randomised.js';
import { stripsOfOneWall, wallsOfOneHouse } from './allocation/units.js';
import { decidedBy } from './decided-by.js';
import type { Grounds } from './grounds.js';
import { batchesByArm } from './measurement/batches.js';
import { largerThanCeiling } from './measurement/ceiling.js';
import { checksDrifted } from './measurement/checks.js';
import { conditionedNearSalt } from './measurement/conditioning.js';
import { armsGuessed, knowingReadDifferently, weighedAndHeld } from './measurement/guesses.js';
import { impedanceLow, meterNotChecked, outcomeIsAnIndex } from './measurement/instruments.js';
import { lastDigitsUneven, numbersCopied, spreadSmall } from './measurement/invented.js';
import { driedUnlike, notDriedToConstantMass, ovenNotStated, ovenTooHotForGypsum } from './measurement/oven.js';
import {
  onlyOneReader,
  readersChanged,
  readersDifferByArm,
  readersKnew,
  readersNotStated,
  readersUnsure,
  unblinded,
} from './measurement/readers.js';
import { saltsChangedUnlike, saltsUnlike } from './measurement/salts.js';
import { belowDetection, noAfterReadings, noBeforeReadings, wallsLeftOut } from './missing/readings.js';
import { sensorDaysMissing, sensorsDrift } from './missing/sensor-log.js';
import { stationsLost, stationsRenamed } from './missing/stations.js';
import { turnsAmongBlind, turnsWithChoices, turnsWithoutOne, turnsWithoutReader } from './result/fragility.js';
import { interestsNotStated, sellerInterest } from './result/interests.js';
import {
  analysisDeparted,
  armsDeparted,
  conductDeparted,
  instrumentsDeparted,
  lockedLate,
  marginDeparted,
  outcomeDeparted,
  planNotLocked,
  wallsDeparted,
  windowsDeparted,
} from './result/lock.js';
import { marginAbsent, plannedLate, planUndated } from './result/plan.js';
import { isWeighed, type Search, type Threat } from './threat.js';
import { unitOf } from './threat-words.js';
import { airNotRecorded, airUnlike } from './timing/air.js';
import { daysUnlike } from './timing/days-unlike.js';
import {
  currentFellAway,
  currentInUntreatedWalls,
  currentReversed,
  electrodesInterrupted,
} from './timing/electrodes.js';
import { eventInOneArm, instrumentChanged } from './timing/events.js';
import { doseBelowPlanned, dosesUnlike, lotsDiffer } from './timing/injection.js';
import { beforeTreatment, carriedOver, outOfReach, outsideMoved, shamActed } from './timing/negative-controls.js';
import { noSham } from './timing/no-sham.js';
import { plasterUnlike, readOnNewPlaster } from './timing/plaster.js';
import { driftBeforeTreatment, placeboAlarms, visitsMuchAlike, weatherWouldDo } from './timing/series.js';
import { notSteadyBefore } from './timing/steady.js';
import { wallsTooDryToLose } from './timing/too-dry.js';
import { traysNotAtRest, traysUnlike } from './timing/trays.js';
import { afterTooEarly, readAfterTreatment, treatmentDayNotStated, treatmentSpread } from './timing/treatment-day.js';
import { waterFromElsewhere } from './timing/water-source.js';
import { windowsAbsent, windowsInDifferentMonths } from './timing/windows.js';
import { tippingPoint, turnInWords } from './turn-in-words.js';

/** Everything that is looked for, by domain. A new threat is a `Search`, and a line here. */
export const searches: readonly Search[] = [
  noUntreatedWalls,
  noTreatedWalls,
  oneWallAnArm,
  armsConfoundedWithBlocks,
  allocationNotStated,
  notRandomised,
  beforeValuesUnlike,
  treatedWallsWettest,
  wallsChosenWettest,
  wallsNotDescribed,
  wallsUnlike,
  armsPooled,
  wallsOfOneHouse,
  stripsOfOneWall,
  tooFewWalls,
  armsUnequal,

  windowsAbsent,
  treatmentDayNotStated,
  readAfterTreatment,
  afterTooEarly,
  treatmentSpread,
  daysUnlike,
  windowsInDifferentMonths,
  airNotRecorded,
  airUnlike,
  wallsTooDryToLose,
  waterFromElsewhere,
  eventInOneArm,
  plasterUnlike,
  doseBelowPlanned,
  dosesUnlike,
  lotsDiffer,
  electrodesInterrupted,
  currentFellAway,
  currentReversed,
  currentInUntreatedWalls,
  noSham,
  notSteadyBefore,
  traysNotAtRest,
  traysUnlike,
  beforeTreatment,
  driftBeforeTreatment,
  placeboAlarms,
  weatherWouldDo,
  outOfReach,
  shamActed,
  outsideMoved,
  carriedOver,

  noBeforeReadings,
  noAfterReadings,
  wallsLeftOut,
  stationsLost,
  stationsRenamed,
  belowDetection,
  sensorDaysMissing,

  outcomeIsAnIndex,
  readersNotStated,
  readersKnew,
  readersUnsure,
  unblinded,
  armsGuessed,
  knowingReadDifferently,
  readersDifferByArm,
  readersChanged,
  onlyOneReader,
  weighedAndHeld,
  ovenNotStated,
  ovenTooHotForGypsum,
  driedUnlike,
  batchesByArm,
  notDriedToConstantMass,
  conditionedNearSalt,
  saltsUnlike,
  saltsChangedUnlike,
  meterNotChecked,
  checksDrifted,
  impedanceLow,
  readOnNewPlaster,
  instrumentChanged,
  sensorsDrift,
  largerThanCeiling,
  numbersCopied,
  lastDigitsUneven,
  spreadSmall,
  visitsMuchAlike,

  marginAbsent,
  planUndated,
  plannedLate,
  planNotLocked,
  lockedLate,
  marginDeparted,
  windowsDeparted,
  outcomeDeparted,
  armsDeparted,
  wallsDeparted,
  analysisDeparted,
  instrumentsDeparted,
  conductDeparted,
  interestsNotStated,
  sellerInterest,
  turnsWithoutOne,
  turnsWithoutReader,
  turnsAmongBlind,
  turnsWithChoices,
];

/**
 * The list of threats to validity of a trial: what is looked for in it, whether it was found, was not found or could not be looked
 * for, with its number and what it would have to be to change the verdict. By domain, in each the gravest first.
 *
 * Where the primary analysis could not be made for a reason that no search names, that reason itself is a fatal entry: an opinion
 * never goes without an interval and without saying why.
 */
export function findThreats(grounds: Grounds): readonly Threat[] {
  const threats = searches.flatMap((search) => threatFrom(search, grounds) ?? []);
  const isExplained =
    grounds.facts.primary.kind === 'estimated' || threats.some(({ seriousness }) => seriousness === 'fatal');
  return isExplained ? threats : [noInterval(grounds), ...threats];
}

function threatFrom(search: Search, grounds: Grounds): Threat | undefined {
  const finding = search.look(grounds);
  if (finding === undefined) return undefined;
  const { code, domain, name, lookedFor } = search;
  const restsOn = (finding.kind === 'could-not-be-looked-for' ? finding.restsOn : undefined) ?? search.restsOn ?? [];
  const { text, measure, direction = search.direction, remedy = search.remedy } = finding;
  const { turning } = grounds.numbers;
  const shift = tippingPoint(turning, direction);
  return {
    ...{ code, domain, name, lookedFor, finding: finding.kind, text, direction, restsOn, remedy },
    tippingIs: finding.tipping === undefined ? 'bias' : 'its-own',
    tipping: finding.tipping ?? turnInWords({ turning, direction, unit: unitOf(grounds.facts) }),
    ...(finding.kind === 'could-not-be-looked-for' ? { needs: finding.needs } : {}),
    ...present({ measure, tippingPoint: shift, countsWith: search.countsWith }),
    ...weightOf(finding),
    decidedBy: finding.kind === 'could-not-be-looked-for' ? [] : decidedBy(code),
  };
}

function weightOf(finding: NonNullable<ReturnType<Search['look']>>): Pick<Threat, 'seriousness' | 'evidenceAtBest'> {
  if (finding.kind === 'not-found' || finding.seriousness === undefined) return {};
  const { seriousness, evidenceAtBest } = finding;
  return { seriousness, ...present({ evidenceAtBest }) };
}

function noInterval({ facts: { primary } }: Grounds): Threat {
  const reason = primary.kind === 'not-estimated' ? reasonInWords(primary.reason) : '';
  return {
    code: 'no-interval',
    domain: 'allocation',
    name: 'No interval',
    lookedFor: 'an interval can be put on the difference',
    finding: 'found',
    text: `No interval could be computed: ${reason}.`,
    direction: 'either way',
    tippingIs: 'bias',
    tipping: turnInWords({ turning: undefined, direction: 'either way', unit: '' }),
    seriousness: 'fatal',
    restsOn: [],
    decidedBy: [],
    remedy: 'Have several walls in each arm with readings in both windows.',
  };
}

const gravity: Readonly<Record<Seriousness, number>> = { fatal: 0, serious: 1, minor: 2 };

/**
 * The threats that weigh against the evidence, the gravest first: those found, and silence on the core list.
 *
 * @example weaknessesOf(opinion.threats).length <= opinion.threats.length // true
 */
export function weaknessesOf(threats: readonly Threat[]): readonly Weakness[] {
  return threats
    .filter(isWeighed)
    .map(({ code, seriousness, text, remedy }) => ({ code, seriousness, text, remedy }))
    .toSorted((one, other) => gravity[one.seriousness] - gravity[other.seriousness]);
}
