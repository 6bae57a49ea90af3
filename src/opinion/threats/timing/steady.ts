import { isReadFromTrays } from '../../../findings/laboratory/rest-of-trays.js';
import { limits } from '../../../findings/limits.js';
import { countInWords, numberInWords, quantityInWords } from '../../../words/quantity.js';
import { wallsOn } from '../facts.js';
import { couldNotLook, found, notFound, type Search } from '../threat.js';
import { unitOf } from '../threat-words.js';

/** The walls were still filling or already drying before anything was done to them. */
export const notSteadyBefore: Search = {
  code: 'not-steady-before',
  domain: 'departures-and-timing',
  name: 'Walls not at rest before the treatment',
  lookedFor: 'the walls were already drying or still getting wetter before the treatment',
  direction: 'either way',
  remedy: 'Go on reading before the treatment until the walls have come to rest, or through a whole year.',
  look: ({ facts }) => {
    // Trays have a test of their own.
    if (isReadFromTrays(facts.trial)) return undefined;
    const { steady } = facts.drying;
    if (steady === undefined)
      return couldNotLook(
        'at least four visits to two walls before the treatment',
        'Too few visits before the treatment to see a trend.',
      );
    const { trendPer30Days: trend, window_d, walls } = steady;
    const drifts = trend.pValue < limits.alarm.value;
    const trendText = `the ${countInWords(walls, 'wall')} read at least four times ${trend.estimate < 0 ? 'fell' : 'rose'} by ${quantityInWords(Math.abs(trend.estimate), unitOf(facts))} in 30 days (interval ${numberInWords(trend.interval.lower)} to ${numberInWords(trend.interval.upper)})`;
    const measure = { value: trend.estimate, unit: `${unitOf(facts)} in 30 days`, interval: trend.interval };
    const window = `In the before window, ${numberInWords(window_d, 0)} days long,`;
    const isShared = wallsOn(facts, 'untreated').length > 1;
    const { margin = 0 } = facts.trial.protocol;
    // Season moves all walls alike, and untreated walls take it off: beside them only a fall that would pass for an effect counts.
    const isSeason =
      isShared && drifts && (Math.abs(trend.estimate) * window_d) / 30 < limits.steadyMargins.value * margin;
    if (isSeason) return notFound(`${window} ${trendText}, as a season does; untreated walls share it.`, { measure });
    if (!drifts) return notFound(`${window} ${trendText}.`, { measure });
    const what = `${trendText}: they were not at rest. A window shorter than a year cannot separate such a trend from the season.`;
    const shared = isShared
      ? ' Untreated walls share what all walls did, so that the comparison suffers less than a story of one wall.'
      : ' Nothing shows how far they would have moved on untreated.';
    return found(isShared ? 'minor' : 'serious', `${window} ${what}${shared}`, { measure });
  },
};
