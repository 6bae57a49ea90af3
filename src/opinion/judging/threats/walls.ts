import { type Estimate, worstLimit } from '../../../analysis/index.js';
import { formatSigned } from '../../../charts/format-number.js';
import { mean } from '../../../statistics/index.js';
import { verdictCode } from '../../verdict-code.js';
import { type Facts, wallsOn } from '../../weaknesses/facts.js';
import { decimalsOf } from '../../words/movement.js';
import { countInWords, listInWords, numberInWords, quantityInWords } from '../../words/quantity.js';
import type { Threat } from '../judging.js';
import { type Numbers, numbersOf, turnOf, unitOf } from './threat-words.js';
import { carried, verdictInWords, type Ways } from './turn-in-words.js';

export function oneUnit(facts: Facts, { leaveOneOut, turning }: Numbers): Threat | undefined {
  const all = leaveOneOut.flatMap(({ left, of, answer }) =>
    answer.kind === 'estimated' ? [{ left, of, estimate: answer.estimate }] : [],
  );
  if (all.length === 0 || facts.primary.kind !== 'estimated') return undefined;
  const sorted = all.toSorted((one, other) => one.estimate.estimate - other.estimate.estimate);
  const [least, most] = [sorted[0], sorted.at(-1)];
  if (least === undefined || most === undefined) return undefined;
  const { margin, outcome } = facts.trial.protocol;
  const codeOf = ({ interval }: Estimate) =>
    interval === undefined || margin === undefined ? undefined : verdictCode(interval, margin, outcome.better);
  const own = codeOf(facts.primary.estimate);
  const turned = all.flatMap(({ of, left, estimate }) => {
    const code = codeOf(estimate);
    const isTurned = turning !== undefined && code !== undefined && code !== own;
    return isTurned ? [`${of} ${left} (${verdictInWords(code)})`] : [];
  });
  const decimals = decimalsOf(facts.primary.estimate.interval);
  const readers = new Set(facts.used.flatMap(({ reader }) => reader ?? []));
  const names = [...new Set(all.map(({ of }) => `${of}`))].join(' or ');
  return {
    code: 'one-unit',
    name: 'One wall, block or reader',
    fact: `With one ${names} left out, the difference runs from ${formatSigned(least.estimate.estimate, decimals)} (without ${least.of} ${least.left}) to ${formatSigned(most.estimate.estimate, decimals)} ${unitOf(facts)} (without ${most.of} ${most.left}).${readers.size === 1 ? ` All outcome readings are by one reader, so that there is no answer without that reader.` : ''}`,
    outcome: turned.length > 0 ? 'warns' : 'quiet',
    direction: 'either way',
    turn:
      turned.length > 0
        ? `Without ${listInWords(turned, 4)} it is another already.`
        : `No single ${names} left out changes it.`,
    inference: turned.length > 0 ? 'The answer hangs on few units.' : 'The answer does not hang on one of them.',
    avoid: 'Have more walls, and each read by several people.',
  };
}

const unlike = (what: string): Ways => ({
  flattered: (size) => `The missing ${what} would have to be worse than those seen by ${size}`,
  hidden: (size) => `They would have to be better by ${size}`,
});

export function lostWalls(facts: Facts, numbers: Numbers): Threat | undefined {
  const { missing } = numbers;
  if (missing === undefined) return undefined;
  const { treated, untreated, pairs } = missing.missing;
  const crosses = missing.bounds.lower * missing.bounds.upper <= 0;
  return {
    code: 'lost-walls',
    name: 'Walls that were lost',
    fact: `${countInWords(treated, 'treated wall')} and ${countInWords(untreated, 'untreated wall')} have no change${pairs > 0 ? ` (${countInWords(pairs, 'pair')})` : ''}. Each as good or as bad as any wall seen, the difference would lie from ${numberInWords(missing.bounds.lower)} to ${quantityInWords(missing.bounds.upper, unitOf(facts))}, chance aside.`,
    outcome: crosses ? 'warns' : 'quiet',
    direction: 'either way',
    turn:
      missing.movesBy === undefined
        ? 'No treated wall is missing; the bounds say what the untreated ones could do.'
        : turnOf(facts, numbers, 'either way', {
            ways: unlike(pairs > 0 ? 'pairs' : 'treated walls'),
            each: 1 / missing.movesBy,
          }),
    inference: crosses
      ? 'What was lost could have turned the difference round.'
      : 'What was lost could not have turned the difference round, if it was like any wall seen.',
    avoid: 'Keep every wall to the end.',
  };
}

export function hiddenCause(facts: Facts, numbers: Numbers): Threat | undefined {
  const { confounding } = numbers;
  if (facts.trial.protocol.allocation.method !== 'chosen') return undefined;
  const strength =
    confounding === undefined || confounding.forLimit === 1
      ? ''
      : ` A cause ${numberInWords(confounding.forLimit)} times as common among treated walls, and making a good result as many times likelier, would bring the interval to zero; a weaker one could not.`;
  return {
    code: 'hidden-cause',
    name: 'A hidden cause',
    fact: 'The walls to be treated were chosen, not drawn by lot.',
    outcome: 'open',
    direction: 'either way',
    turn: `${turnOf(facts, numbers, 'either way')}${strength}`,
    inference: 'Whether there is such a cause, no computation can tell.',
    avoid: 'Draw the treated walls by lot.',
  };
}

const fallen: Ways = {
  ...carried,
  flattered: (size) => `Of themselves the treated walls would have to come back by ${size} more than the untreated`,
};

export function pickedWettest(facts: Facts, numbers: Numbers): Threat | undefined {
  const { fall, choices } = numbers;
  if (fall === undefined) return undefined;
  const adjusted = choices.flatMap((answer) =>
    answer.kind === 'estimated' && answer.estimate.id === 'baseline-adjusted' ? [answer.estimate] : [],
  )[0];
  const { better } = facts.trial.protocol.outcome;
  const isAlone = facts.primary.kind !== 'estimated';
  const isShare =
    adjusted?.interval !== undefined &&
    facts.primary.kind === 'estimated' &&
    worstLimit(facts.primary.estimate.interval) !== undefined &&
    worstLimit(adjusted.interval) === undefined;
  return {
    code: 'picked-wettest',
    name: 'Walls picked for being wet',
    fact:
      typeof fall === 'string'
        ? `The expected fall without any treatment cannot be told: ${fall}.`
        : `With nothing done, walls so picked are expected to come ${better === 'lower' ? 'down' : 'up'} by ${quantityInWords(fall.expected, unitOf(facts))} (a reading’s reliability ${numberInWords(fall.reliability, 2)}).${correctedInWords(facts, fall.expected)}${adjusted ? ` Difference among walls of the same before value: ${numbersOf(adjusted)}.` : ''}`,
    outcome: isAlone || isShare ? 'warns' : typeof fall === 'string' ? 'open' : 'quiet',
    direction: 'towards the claim',
    turn: turnOf(facts, numbers, 'towards the claim', { ways: fallen }),
    inference: isAlone
      ? 'Without untreated walls picked in the same way, such a fall cannot be told from the treatment.'
      : isShare
        ? 'Among walls of the same before value the difference cannot be told from none: the fall of walls picked at their worst may be all there is.'
        : 'Both arms share this fall as far as they were picked alike; the adjusted difference takes off what they do not share.',
    avoid: 'Pick the walls first, read them again, and take the later readings as the before values.',
  };
}

/** The treated walls' change with the expected fall taken off; the untreated ones may not have been picked in the same way. */
function correctedInWords(facts: Facts, expected: number): string {
  const changes = wallsOn(facts, 'treated').map(({ change }) => change);
  if (changes.length === 0) return '';
  const change = mean(changes);
  const corrected = facts.trial.protocol.outcome.better === 'lower' ? change + expected : change - expected;
  return ` The treated walls changed by ${formatSigned(change, 2)}, with that taken off by ${formatSigned(corrected, 2)} ${unitOf(facts)}.`;
}
