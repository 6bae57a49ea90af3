import type { Seriousness, Weakness } from '../opinion.js';
import { beforeValuesUnlike, treatedWallsWettest, wallsChosenWettest } from './baseline.js';
import {
  armsConfoundedWithBlocks,
  noSham,
  noTreatedWalls,
  notRandomised,
  noUntreatedWalls,
  oneWallAnArm,
  tooFewWalls,
} from './design.js';
import { largerThanCeiling, notSteadyBefore } from './drying.js';
import { eventInOneArm, instrumentChanged } from './events.js';
import type { Facts } from './facts.js';
import { driedUnlike, notDriedToConstantMass, ovenTooHotForGypsum } from './oven.js';
import {
  interestsNotStated,
  marginAbsent,
  plannedLate,
  planUndated,
  windowsAbsent,
  windowsInDifferentMonths,
} from './plan.js';
import {
  blindingNotRecorded,
  onlyOneReader,
  readersChanged,
  readersDifferByArm,
  readersKnew,
  unblinded,
} from './readers.js';
import { belowDetection, noAfterReadings, noBeforeReadings, outcomeIsAnIndex, wallsLeftOut } from './readings.js';
import { sensorDaysMissing, sensorsDrift } from './sensor-log.js';
import { driftBeforeTreatment, placeboAlarms, visitsMuchAlike, weatherWouldDo } from './series.js';

/** Every weakness that is looked for. A new one is a function from the facts, and a line here. */
const searches: readonly ((facts: Facts) => Weakness | undefined)[] = [
  noUntreatedWalls,
  noTreatedWalls,
  windowsAbsent,
  noBeforeReadings,
  noAfterReadings,
  marginAbsent,
  oneWallAnArm,
  armsConfoundedWithBlocks,
  visitsMuchAlike,
  driftBeforeTreatment,
  placeboAlarms,
  weatherWouldDo,
  notRandomised,
  tooFewWalls,
  wallsChosenWettest,
  treatedWallsWettest,
  beforeValuesUnlike,
  planUndated,
  plannedLate,
  outcomeIsAnIndex,
  readersKnew,
  blindingNotRecorded,
  unblinded,
  readersDifferByArm,
  readersChanged,
  onlyOneReader,
  wallsLeftOut,
  belowDetection,
  sensorDaysMissing,
  sensorsDrift,
  ovenTooHotForGypsum,
  driedUnlike,
  notDriedToConstantMass,
  eventInOneArm,
  instrumentChanged,
  windowsInDifferentMonths,
  notSteadyBefore,
  largerThanCeiling,
  noSham,
  interestsNotStated,
];

const gravity: Readonly<Record<Seriousness, number>> = {
  fatal: 0,
  serious: 1,
  minor: 2,
};

/**
 * What a hostile reader would raise against the trial, the most serious first.
 *
 * Where the primary analysis could not be made for a reason that no search names, that reason itself is the last,
 * fatal weakness: an opinion never goes without an interval and without saying why.
 */
export function findWeaknesses(facts: Facts): readonly Weakness[] {
  const found = searches.flatMap((search) => search(facts) ?? []);
  const isExplained = facts.primary.kind === 'estimated' || found.some(({ seriousness }) => seriousness === 'fatal');
  const all = isExplained ? found : [noInterval(facts), ...found];
  return all.toSorted((one, other) => gravity[one.seriousness] - gravity[other.seriousness]);
}

function noInterval({ primary }: Facts): Weakness {
  const reason = primary.kind === 'not-estimated' ? primary.reason : '';
  return {
    code: 'no-interval',
    seriousness: 'fatal',
    text: `No interval can be put on the difference: ${reason}.`,
    remedy: 'Have several walls in each arm with readings in both windows.',
  };
}
