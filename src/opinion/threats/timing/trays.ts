import { lastVisits, restOfTrays } from '../../../findings/laboratory/rest-of-trays.js';
import { type TrayConditions, trayConditions } from '../../../findings/laboratory/tray-conditions.js';
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

/** Walls of one arm that stood deeper, or in other water, than those of the other. */
export const traysUnlike: Search = {
  code: 'trays-unlike',
  domain: 'departures-and-timing',
  name: 'Trays unlike between the arms',
  lookedFor: 'the trays of one arm were kept at another level, or filled with other water',
  direction: 'either way',
  remedy: 'Keep all trays at one level with one water, and write both down at every refill.',
  look: ({ facts }) => {
    const conditions = trayConditions(facts.trial, facts.sides);
    if (conditions === undefined) return undefined;
    const { level_mm, salt } = conditions;
    if (level_mm === undefined && salt === undefined)
      return couldNotLook(
        'level_mm and water in trays.csv, for walls of both sides',
        'Neither the level of the trays nor their water is on record for both sides.',
      );
    const text = conditionsInWords(conditions);
    // Salt slows the rise, holds water by itself and grows from visit to visit.
    if (salt !== undefined && Math.abs(salt.treated - salt.untreated) >= limits.traySalt.value)
      return found('serious', `${text} A wall takes up salt water differently, and the salt stays in it.`, {
        measure: { value: salt.treated - salt.untreated, unit: 'share of the records' },
      });
    const measure =
      level_mm === undefined ? {} : { measure: { value: level_mm.treated - level_mm.untreated, unit: 'mm' } };
    if (level_mm !== undefined && Math.abs(level_mm.treated - level_mm.untreated) >= limits.trayLevel.value)
      return found('minor', `${text} A wall that stands deeper takes up more by itself.`, measure);
    return notFound(text, measure);
  },
};

function conditionsInWords({ level_mm, salt }: TrayConditions): string {
  const percent = (share: number) => numberInWords(100 * share, 0);
  const level =
    level_mm === undefined
      ? 'The level of the trays is not on record for both sides.'
      : `The water stood ${numberInWords(level_mm.treated)} mm high in the trays of treated walls and ${numberInWords(level_mm.untreated)} mm in those of untreated ones.`;
  const water =
    salt === undefined
      ? 'Their water is not on record for both sides.'
      : `Salt water: ${percent(salt.treated)} % of the records of treated walls and ${percent(salt.untreated)} % of those of untreated ones.`;
  return `${level} ${water}`;
}
