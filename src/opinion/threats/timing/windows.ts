import { allocatedTo, type Facts } from '../facts.js';
import { limits } from '../limits.js';
import { found, notFound, type Search } from '../threat.js';
import { monthsInWords, monthsOf } from './calendar.js';

export const windowsAbsent: Search = {
  code: 'windows-absent',
  domain: 'departures-and-timing',
  name: 'Before and after not fixed',
  lookedFor: 'the plan fixed which days count as before and which as after',
  direction: 'either way',
  remedy: 'State the before and the after window before the first reading.',
  look: ({ facts: { trial } }) =>
    trial.protocol.windows === undefined
      ? found(
          'fatal',
          'The plan does not say which days count as before and which as after, so whoever picks them now picks the result.',
        )
      : notFound('The plan states the before and the after window.'),
};

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
    const { windows } = facts.trial.protocol;
    if (windows === undefined) return undefined;
    const [before, after] = [new Set(monthsOf(windows.before)), new Set(monthsOf(windows.after))];
    const shared = [...before].filter((month) => after.has(month)).length / new Set([...before, ...after]).size;
    const text = `The before window runs ${monthsInWords(windows.before)}, the after window ${monthsInWords(windows.after)}.`;
    if (shared >= limits.sharedMonths.value) return notFound(text);
    const isShared = seasonIsTakenOff(facts);
    return found(
      isShared ? 'minor' : 'serious',
      `${text} Part of every wall’s change is season${isShared ? ', which the untreated walls take off only as far as both arms follow it alike' : '. With fewer than two walls in an arm nothing shows whether the arms follow it alike'}.`,
    );
  },
};
