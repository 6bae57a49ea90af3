import { departuresFromLock, type LockedPart } from '../../../findings/lock/departures-from-lock.js';
import { isoDay } from '../../../plain/days.js';
import { listInWords } from '../../../words/quantity.js';
import { departedThing, partNames, plannedValue } from '../../lock/departure-in-words.js';
import type { Facts } from '../facts.js';
import { found, notFound, type Search } from '../threat.js';

// A seal that is thrown away must not help. So whatever a seal shows weighs no more than having none, and all of it counts once
// with that: a departure is named, and the verdict as locked stands beside it, but nobody gains by deleting the file.

const common = {
  domain: 'choice-of-result',
  direction: 'towards the claim',
  countsWith: 'lock',
} as const;

export const planNotLocked: Search = {
  ...{ ...common, code: 'plan-not-locked', name: 'A plan that nobody sealed' },
  lookedFor: 'the plan was sealed before the readings, so that any later change of it shows',
  remedy: 'Seal the plan with “fairwall lock” before the first reading, and publish the line that it prints.',
  look: ({ facts: { trial } }) => {
    const { lock, protocol } = trial;
    if (lock !== undefined)
      return notFound(
        `The plan was sealed on ${lock.lockedOn} (SHA-256 ${lock.sha256}). That proves a day only where somebody outside the trial has held these digits since.`,
      );
    const dated =
      protocol.plannedOn === undefined ? '' : ` Its date, ${protocol.plannedOn}, is a statement of the folder.`;
    return found(
      'minor',
      `The plan was not sealed, so nothing shows whether it was changed after it was made.${dated}`,
    );
  },
};

export const lockedLate: Search = {
  ...{ ...common, code: 'locked-late', name: 'A seal set after the readings began' },
  lookedFor: 'the seal is no younger than the first reading of the walls that are compared',
  remedy: 'Seal the plan before the first reading.',
  look: ({ facts }) => {
    const { lock } = facts.trial;
    const first = firstReading(facts);
    if (lock === undefined || first === undefined) return undefined;
    const text = `The plan was sealed on ${lock.lockedOn}, and the first reading is of ${first}.`;
    if (lock.lockedOn <= first) return notFound(text);
    return found('minor', `${text} What was read before the seal may have shaped the plan.`);
  },
};

function firstReading({ trial, sides }: Facts): string | undefined {
  return [...trial.readings, ...trial.cores].reduce<string | undefined>((first, { wall, date }) => {
    const day = isoDay(date);
    return sides.has(wall) && (first === undefined || day < first) ? day : first;
  }, undefined);
}

const namesOf: Readonly<Record<LockedPart, string>> = {
  margin: 'Another margin than was sealed',
  windows: 'Other windows than were sealed',
  outcome: 'Another outcome than was sealed',
  arms: 'Other arms than were sealed',
  walls: 'Other walls than were sealed',
  analysis: 'Another analysis than was sealed',
  instruments: 'Other instruments than were sealed',
  conduct: 'Another conduct than was sealed',
};

function departed(part: LockedPart, remedy: string): Search {
  return {
    ...{ ...common, code: `${part}-departed`, name: namesOf[part] },
    lookedFor: `the ${partNames[part]} ${isOne(part) ? 'is' : 'are'} as in the sealed plan`,
    direction: 'either way',
    remedy,
    look: ({ facts: { trial } }) => {
      if (trial.lock === undefined) return undefined;
      const own = departuresFromLock(trial).filter((one) => one.part === part);
      const measure = { value: own.length, unit: 'departures' };
      if (own.length === 0) return notFound(`As sealed on ${trial.lock.lockedOn}.`, { measure });
      const things = own.map((one) => departedThing(one));
      const values = own.map(
        (one) => `${departedThing(one)}: sealed ${plannedValue(one.locked)}, now ${plannedValue(one.now)}`,
      );
      return found(
        'minor',
        `Otherwise than sealed on ${trial.lock.lockedOn}: ${listInWords(things, 4)}. The verdict as locked stands beside this one. In full: ${listInWords(values, 4)}.`,
        { measure },
      );
    },
  };
}

function isOne(part: LockedPart): boolean {
  return !['windows', 'arms', 'walls', 'instruments'].includes(part);
}

const keep = 'Keep to the sealed plan, and give what was done otherwise as a further analysis.';

export const marginDeparted = departed('margin', keep);
export const windowsDeparted = departed('windows', keep);
export const outcomeDeparted = departed('outcome', keep);
export const armsDeparted = departed(
  'arms',
  'Leave every wall in the arm that it was allocated to, whatever was done to it.',
);
export const wallsDeparted = departed(
  'walls',
  'Keep every wall of the sealed plan in the folder, and take none in afterwards.',
);
export const analysisDeparted = departed('analysis', keep);
export const instrumentsDeparted = departed('instruments', keep);
export const conductDeparted = departed(
  'conduct',
  'Note in the diary what was done otherwise, and leave the plan as it was.',
);
