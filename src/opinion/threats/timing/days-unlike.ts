import { limits } from '../../../findings/limits.js';
import { countInWords } from '../../../words/quantity.js';
import { found, notFound, type Search } from '../threat.js';

export const daysUnlike: Search = {
  code: 'days-unlike',
  domain: 'departures-and-timing',
  name: 'Arms read on different days',
  lookedFor: 'the arms were read on the same days',
  direction: 'either way',
  remedy: 'Read walls of both arms on each visit.',
  look: ({ numbers }) => {
    const windows = (['before', 'after'] as const).flatMap((window) => {
      const days = numbers.days[window];
      return days === undefined ? [] : [{ window, ...days }];
    });
    const [worst] = windows.toSorted(
      (one, other) => Math.abs(other.meanDifference_days) - Math.abs(one.meanDifference_days),
    );
    if (worst === undefined) return undefined;
    const apart = Math.abs(worst.meanDifference_days);
    const when =
      apart < 0.5
        ? 'on the same days as the untreated'
        : `${countInWords(Math.round(apart), 'day')} ${worst.meanDifference_days < 0 ? 'before' : 'after'} the untreated on average`;
    const text = `In the ${worst.window} window the treated walls were read ${when}; ${worst.sharedDays} of ${worst.days} visit days are common to both arms.`;
    const measure = { value: worst.meanDifference_days, unit: 'days' };
    if (apart <= limits.daysApart_d.value) return notFound(text, { measure });
    return found(
      apart > limits.farApart_d.value ? 'serious' : 'minor',
      `${text} Part of the difference between the arms can be weather and season.`,
      { measure },
    );
  },
};
