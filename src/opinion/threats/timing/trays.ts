import { lastVisits, restOfTrays } from '../../../findings/laboratory/rest-of-trays.js';
import { limits } from '../../../findings/limits.js';
import { countInWords, numberInWords } from '../../../words/quantity.js';
import { wallsOn } from '../facts.js';
import { couldNotLook, found, notFound, type Search } from '../threat.js';

/** Walls in trays that were still filling, or drying out, when the trial began. */
export const traysNotAtRest: Search = {
  code: 'trays-not-at-rest',
  domain: 'departures-and-timing',
  name: 'Walls in trays not at rest before the start',
  lookedFor: 'walls in trays were still filling when the treatment began',
  direction: 'either way',
  remedy: 'Keep the trays at their level until the refill stays the same from week to week, and begin then.',
  look: ({ facts }) => {
    const rest = restOfTrays(facts.trial, facts.sides);
    if (rest === undefined) return undefined;
    if (rest.kind === 'not-told')
      return couldNotLook(
        `at least ${lastVisits} visits to two walls before the start`,
        'Too few visits before the start to see whether the walls had come to rest.',
      );
    const { trendPer30Days: trend, interval, walls } = rest;
    const percent = (share: number) => numberInWords(100 * share);
    const measure = { value: trend, unit: 'share in 30 days', interval };
    const text = `Over the last ${lastVisits} visits before the start the ${countInWords(walls, 'wall')} moved by ${percent(trend)} % of their mean in 30 days (interval ${percent(interval.lower)} to ${percent(interval.upper)}).`;
    if (Math.abs(trend) < limits.trayTrend.value) return notFound(text, { measure });
    if (wallsOn(facts, 'untreated').length > 1)
      return found('minor', `${text} They were not at rest; untreated walls in trays of their own share that.`, {
        measure,
      });
    return found(
      'serious',
      `${text} They were not at rest, and nothing shows how far they would have moved on untreated.`,
      {
        measure,
      },
    );
  },
};
