import type { Weakness } from '../opinion.js';
import { levelInWords } from '../words/movement.js';
import { countInWords, numberInWords, quantityInWords } from '../words/quantity.js';
import type { Facts } from './facts.js';

/** Weaknesses of a verdict that rests on the series of two walls; how often simulations raise them is in tests/simulation/paired-series.md. */

/**
 * Autocorrelation from which noise on top of a stronger one makes intervals too short (tests/simulation/paired-series.md), and
 * independent visits below which a window says next to nothing: our conventions.
 */
const strong = 0.3;
const fewIndependent = 4;
export function visitsMuchAlike({ series, primary }: Facts): Weakness | undefined {
  const checks = series?.checks;
  if (checks === undefined || primary.kind !== 'estimated') return undefined;
  const { correlation, visits, effectiveVisits } = checks;
  const isFew = effectiveVisits < fewIndependent;
  if (correlation <= strong && !isFew) return undefined;
  return {
    code: 'visits-much-alike',
    seriousness: isFew ? 'serious' : 'minor',
    text: `From one visit to the next the difference of the two walls stays much the same (autocorrelation about ${numberInWords(correlation, 2)}), so that the ${visits} visits of the shorter window are worth about ${numberInWords(effectiveVisits, 1)} independent ones. Where noise of the readings hides that the walls themselves hold on to their state for longer, such intervals are too short: in simulated series of that kind they held the truth 84 to 92 times in 100 and not 95.`,
    remedy: 'Read for longer, not more often: visits close to each other add little.',
  };
}

export function driftBeforeTreatment({ series, primary, trial }: Facts): Weakness | undefined {
  const trend = series?.checks?.trendPer30Days;
  if (trend === undefined || primary.kind !== 'estimated') return undefined;
  const { estimate, interval } = trend;
  if (interval.lower <= 0 && interval.upper >= 0) return undefined;
  const { unit } = trial.protocol.outcome;
  return {
    code: 'drift-before-treatment',
    seriousness: 'serious',
    text: `Before the treatment the treated wall was already ${estimate < 0 ? 'falling' : 'rising'} against the untreated one, by ${quantityInWords(Math.abs(estimate), unit)} in 30 days (${levelInWords(interval.level)} interval ${numberInWords(interval.lower)} to ${numberInWords(interval.upper)}); going on like that would look like an effect, or hide one. In simulated series in which nothing happened this came up 1 to 3 times in 100, and up to 12 times where neighbouring visits were much alike.`,
    remedy: 'Go on reading before the treatment until the two walls keep their distance, or through a whole year.',
  };
}

export function placeboAlarms({ series, primary, trial }: Facts): Weakness | undefined {
  const checks = series?.checks;
  if (checks === undefined || primary.kind !== 'estimated') return undefined;
  const { placebo, placeboPValue } = checks;
  if (placeboPValue >= 1 - trial.protocol.confidence) return undefined;
  const alarms = placebo.filter(({ isAlarm }) => isAlarm).length;
  return {
    code: 'placebo-alarms',
    seriousness: 'serious',
    text: `Looked for at ${countInWords(placebo.length, 'date')} before the treatment, when nothing was done, a change was “found” at ${alarms}, the plainest with a p-value that stays at ${numberInWords(placeboPValue)} when it is multiplied by the number of dates: something moved one of these walls alone then, and may have done so again. In simulated series in which nothing happened this came up 2 to 5 times in 100, and up to 15 times where neighbouring visits were much alike.`,
    remedy: 'Read for longer before the treatment, and keep what moves one wall alone out of the trial.',
  };
}

export function weatherWouldDo({ primary, analyses, trial }: Facts): Weakness | undefined {
  const adjusted = analyses?.flatMap((answer) =>
    answer.kind === 'estimated' && answer.estimate.id === 'paired-series-weather' ? [answer.estimate] : [],
  )[0];
  if (primary.kind !== 'estimated' || adjusted?.interval === undefined) return undefined;
  const holdsZero = ({ lower, upper }: { readonly lower: number; readonly upper: number }) => lower <= 0 && upper >= 0;
  if (holdsZero(primary.estimate.interval) || !holdsZero(adjusted.interval)) return undefined;
  const { estimate, interval } = adjusted;
  return {
    code: 'weather-would-do',
    seriousness: 'serious',
    text: `With the weather taken off the difference of the two walls changed by ${numberInWords(estimate)} ${trial.protocol.outcome.unit} (${levelInWords(interval.level)} interval ${numberInWords(interval.lower)} to ${numberInWords(interval.upper)}), which cannot be told from none: walls that follow the air unlike each other could have come apart in this way by themselves.`,
    remedy: 'Compare walls that face the same way and follow the weather alike, and several of them.',
  };
}
