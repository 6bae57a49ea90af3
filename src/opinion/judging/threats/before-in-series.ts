import type { SeriesChecks } from '../../../analysis/index.js';
import { formatSigned } from '../../../charts/format-number.js';
import type { Facts } from '../../weaknesses/facts.js';
import { driftBeforeTreatment, placeboAlarms } from '../../weaknesses/series.js';
import { decimalsOf, levelInWords } from '../../words/movement.js';
import { countInWords } from '../../words/quantity.js';
import type { Threat } from '../judging.js';
import { type Numbers, pushOf, turnOf, unitOf } from './threat-words.js';

/** An effect before the treatment of two walls: their series can be searched for a change where none was made. */
export function beforeInSeries(
  facts: Facts,
  numbers: Numbers,
  { placebo, trendPer30Days }: SeriesChecks,
): Pick<Threat, 'fact' | 'outcome' | 'direction' | 'turn' | 'inference'> {
  const { estimate, interval } = trendPer30Days;
  const decimals = decimalsOf(interval);
  const alarms = placebo.filter(({ isAlarm }) => isAlarm).length;
  const found = `Looked for at ${countInWords(placebo.length, 'date')} before the treatment, a change was “found” at ${alarms}.`;
  const trend = `Trend before: ${formatSigned(estimate, decimals)} ${unitOf(facts)} in 30 days (${levelInWords(interval.level)} interval ${formatSigned(interval.lower, decimals)} to ${formatSigned(interval.upper, decimals)}).`;
  const warns = driftBeforeTreatment(facts) !== undefined || placeboAlarms(facts) !== undefined;
  const direction = pushOf(facts, estimate);
  return {
    fact: `${found} ${trend}`,
    outcome: warns ? 'warns' : 'quiet',
    direction,
    turn: turnOf(facts, numbers, direction),
    inference: warns
      ? 'The two walls did not keep their distance before anything was done; some of the difference may be more of the same.'
      : 'No more was found before the treatment than chance makes; a small drift may have gone unseen.',
  };
}
