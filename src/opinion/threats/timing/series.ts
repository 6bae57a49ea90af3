import { limits } from '../../../findings/limits.js';
import { formatSigned } from '../../../words/format-number.js';
import { decimalsOf, levelInWords } from '../../../words/movement.js';
import { countInWords, numberInWords, quantityInWords } from '../../../words/quantity.js';
import { found, notFound, type Search } from '../threat.js';
import { measureOf, pushOf, unitOf } from '../threat-words.js';

/** Threats to a verdict that rests on a series of visits; how often simulations raise them is in tests/simulation/paired-series.md. */

export const visitsMuchAlike: Search = {
  code: 'visits-much-alike',
  domain: 'measurement',
  name: 'Visits that say much the same',
  lookedFor: 'neighbouring visits resemble each other so much that they count as fewer (autocorrelation)',
  direction: 'either way',
  remedy: 'Read for longer, not more often: visits close to each other add little.',
  look: ({ facts: { series, primary } }) => {
    const checks = series?.checks;
    if (checks === undefined || primary.kind !== 'estimated') return undefined;
    const { correlation, visits, effectiveVisits } = checks;
    const isFew = effectiveVisits < limits.independentVisits.value;
    const text = `Autocorrelation from one visit to the next about ${numberInWords(correlation, 2)}; the ${visits} visits of the shorter window are worth about ${numberInWords(effectiveVisits, 1)} independent ones.`;
    const measure = { value: correlation, unit: 'autocorrelation' };
    if (correlation <= limits.autocorrelation.value && !isFew) return notFound(text, { measure });
    return found(
      isFew ? 'serious' : 'minor',
      `${text} Where noise of the readings hides a longer memory of the walls, such intervals are too short: their coverage was 84 to 92 % in simulated series of that kind, not 95 %.`,
      { measure },
    );
  },
};

export const driftBeforeTreatment: Search = {
  code: 'drift-before-treatment',
  domain: 'departures-and-timing',
  name: 'A drift before the treatment',
  lookedFor: 'the walls were drifting apart before the treatment',
  direction: 'either way',
  remedy: 'Go on reading before the treatment until the walls keep their distance, or through a whole year.',
  look: ({ facts }) => {
    const trend = facts.series?.checks?.trendPer30Days;
    if (trend === undefined || facts.primary.kind !== 'estimated') return undefined;
    const { estimate, interval } = trend;
    const more = {
      measure: { value: estimate, unit: `${unitOf(facts)} in 30 days`, interval },
      direction: pushOf(facts, estimate),
    };
    const decimals = decimalsOf(interval);
    const limitsText = `${levelInWords(interval.level)} interval ${formatSigned(interval.lower, decimals)} to ${formatSigned(interval.upper, decimals)}`;
    const text = `Before the treatment the treated wall ${estimate < 0 ? 'fell' : 'rose'} against the untreated by ${quantityInWords(Math.abs(estimate), unitOf(facts))} in 30 days (${limitsText})`;
    if (interval.lower <= 0 && interval.upper >= 0) return notFound(`${text}.`, more);
    return found(
      'serious',
      `${text}. Going on like that would look like an effect, or hide one. In simulated series in which nothing happened this came up 1 to 3 times in 100, and up to 12 times where neighbouring visits were much alike.`,
      more,
    );
  },
};

export const placeboAlarms: Search = {
  code: 'placebo-alarms',
  domain: 'departures-and-timing',
  name: 'A change at a placebo date',
  lookedFor: 'a change is “found” at dates before the treatment (negative control in time)',
  direction: 'either way',
  remedy: 'Read for longer before the treatment, and keep what moves one wall alone out of the trial.',
  look: ({ facts: { series, primary, trial } }) => {
    const checks = series?.checks;
    if (checks === undefined || primary.kind !== 'estimated') return undefined;
    const { placebo, placeboPValue } = checks;
    const alarms = placebo.filter(({ isAlarm }) => isAlarm).length;
    const text = `At ${countInWords(placebo.length, 'date')} before the treatment, when nothing was done, a change was “found” at ${alarms}; smallest p-value, adjusted for the number of dates, ${numberInWords(placeboPValue)}.`;
    const measure = { value: alarms, unit: 'dates', pValue: placeboPValue };
    if (placeboPValue >= 1 - trial.protocol.confidence) return notFound(text, { measure });
    return found(
      'serious',
      `${text} Something moved one of these walls alone then, and may have done so again. In simulated series in which nothing happened this came up 2 to 5 times in 100, and up to 15 times where neighbouring visits were much alike.`,
      { measure },
    );
  },
};

export const weatherWouldDo: Search = {
  code: 'weather-would-do',
  domain: 'departures-and-timing',
  name: 'The weather would explain it',
  lookedFor: 'the difference remains when it is adjusted for the weather',
  direction: 'either way',
  remedy: 'Compare walls that face the same way and follow the weather alike, and several of them.',
  restsOn: ['air'],
  look: ({ facts: { primary, analyses, trial } }) => {
    const adjusted = analyses.flatMap((answer) =>
      answer.kind === 'estimated' && answer.estimate.id === 'paired-series-weather' ? [answer.estimate] : [],
    )[0];
    if (primary.kind !== 'estimated' || adjusted?.interval === undefined) return undefined;
    const includesZero = ({ lower, upper }: { readonly lower: number; readonly upper: number }) =>
      lower <= 0 && upper >= 0;
    const { estimate, interval } = adjusted;
    const text = `Adjusted for the weather the difference of the walls changed by ${numberInWords(estimate)} ${trial.protocol.outcome.unit} (${levelInWords(interval.level)} interval ${numberInWords(interval.lower)} to ${numberInWords(interval.upper)}).`;
    const measure = measureOf(adjusted);
    if (includesZero(primary.estimate.interval) || !includesZero(interval)) return notFound(text, { measure });
    return found(
      'serious',
      `${text} That includes zero: walls that follow the air differently could have come apart in this way by themselves.`,
      { measure },
    );
  },
};
