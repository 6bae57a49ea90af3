import { limits } from '../../../findings/limits.js';
import { type Windows, windowsOf } from '../../../trial/index.js';
import { allocatedTo, type Facts } from '../facts.js';
import { found, notFound, type Search } from '../threat.js';
import { monthsInWords, monthsOf } from './calendar.js';

export const windowsAbsent: Search = {
  code: 'windows-absent',
  domain: 'departures-and-timing',
  name: 'Before and after not fixed',
  lookedFor: 'the plan fixed which days count as before and which as after',
  direction: 'either way',
  remedy: 'State the before and the after window before the first reading.',
  look: ({ facts }) =>
    windowsOfWalls(facts) === undefined
      ? found(
          'fatal',
          'The plan does not say which days count as before and which as after, so whoever picks them now picks the result.',
        )
      : notFound('The plan states the before and the after window.'),
};

/** The windows of the compared walls, the same ones once; nothing where a wall has none, be it its own or the plan’s. */
function windowsOfWalls({ trial, sides }: Facts): readonly Windows[] | undefined {
  const { windows } = trial.protocol;
  const all = sides.size === 0 ? [windows] : [...sides.keys()].map((wall) => windowsOf(trial, wall));
  const stated = all.flatMap((one) => one ?? []);
  if (stated.length < all.length) return undefined;
  return [...new Map(stated.map((one) => [JSON.stringify(one), one])).values()];
}

/** Of the calendar months of both windows, the share that they have in common. */
function sharedMonths(windows: Windows): number {
  const [before, after] = [new Set(monthsOf(windows.before)), new Set(monthsOf(windows.after))];
  return [...before].filter((month) => after.has(month)).length / new Set([...before, ...after]).size;
}

/** With one wall a side the control takes the season off only where both walls swing alike. */
function seasonIsTakenOff(facts: Facts): boolean {
  return Math.min(allocatedTo(facts, 'treated'), allocatedTo(facts, 'untreated')) > 1;
}

export const windowsInDifferentMonths: Search = {
  code: 'windows-in-different-months',
  domain: 'departures-and-timing',
  name: 'Other months after than before',
  lookedFor: 'before and after lie in the same calendar months',
  direction: 'either way',
  remedy: 'Compare the same calendar months, a full year or two apart.',
  look: ({ facts }) => {
    const [worst] = (windowsOfWalls(facts) ?? []).toSorted((one, other) => sharedMonths(one) - sharedMonths(other));
    const windows = worst ?? facts.trial.protocol.windows;
    if (windows === undefined) return undefined;
    const shared = sharedMonths(windows);
    const text = `The before window runs ${monthsInWords(windows.before)}, the after window ${monthsInWords(windows.after)}.`;
    if (shared >= limits.sharedMonths.value) return notFound(text);
    const isShared = seasonIsTakenOff(facts);
    return found(
      isShared ? 'minor' : 'serious',
      `${text} Part of every wall’s change is season${isShared ? ', which the untreated walls remove only as far as both arms follow it alike' : '. With fewer than two walls in an arm nothing shows whether the arms follow it alike'}.`,
    );
  },
};
