import type { Facts } from '../weaknesses/facts.js';
import type { Threat } from './judging.js';
import { beforeTreatment, carriedOver, outOfReach, outsideMoved, shamActed, unlikeBefore } from './threats/nothing.js';
import { guessed, knowingReaders, weighedAndHeld } from './threats/readers.js';
import type { Numbers } from './threats/threat-words.js';
import { hiddenCause, lostWalls, oneUnit, pickedWettest } from './threats/walls.js';

/** Everything that is looked for, each in words with its number. */
const searches: readonly ((facts: Facts, numbers: Numbers) => Threat | undefined)[] = [
  guessed,
  knowingReaders,
  weighedAndHeld,
  oneUnit,
  lostWalls,
  hiddenCause,
  beforeTreatment,
  outOfReach,
  shamActed,
  outsideMoved,
  unlikeBefore,
  pickedWettest,
  carriedOver,
];

export function findThreats(facts: Facts, numbers: Numbers): readonly Threat[] {
  return searches.flatMap((search) => search(facts, numbers) ?? []);
}
