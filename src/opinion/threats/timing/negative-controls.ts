import type { Answer } from '../../../analysis/index.js';
import { reasonInWords } from '../../../labels/index.js';
import type { Facts } from '../facts.js';
import type { Grounds, ThreatNumbers } from '../grounds.js';
import { couldNotLook, type Direction, type Finding, found, notFound, type Search } from '../threat.js';
import { alarmOf, measureOf, numbersOf, pushOf } from '../threat-words.js';

/** A comparison that should find nothing, in words. */
interface NegativeControl extends Omit<Search, 'domain' | 'look' | 'direction'> {
  readonly follows: string;
  /** Whether what is found there biases the result the other way. */
  readonly isTurnedRound?: boolean;
  readonly direction?: Direction;
  /** What the folder would have to say where it cannot be looked for. */
  readonly needs: string;
  readonly isOf?: (facts: Facts) => boolean;
}

function negativeControl(words: NegativeControl): Search {
  const { follows, isTurnedRound = false, needs, isOf = () => true, direction = 'either way', ...rest } = words;
  const look = ({ facts, numbers }: Grounds): Finding | undefined => {
    const answer = isOf(facts) ? answerNamed(numbers, words.code) : undefined;
    if (answer === undefined) return undefined;
    if (answer.kind === 'not-estimated')
      return couldNotLook(needs, sentence(reasonInWords(answer.notEstimated.reason)));
    const { estimate } = answer;
    const push = pushOf(facts, estimate.estimate);
    const more = { measure: measureOf(estimate), direction: isTurnedRound ? opposite(push) : push };
    const alarm = alarmOf(answer);
    const text = `Difference ${numbersOf(estimate)}.`;
    return alarm === undefined ? notFound(text, more) : found(alarm, `${text} ${follows}`, more);
  };
  return { ...rest, direction, domain: 'departures-and-timing', look };
}

function sentence(reason: string): string {
  return `${reason.charAt(0).toUpperCase()}${reason.slice(1)}.`;
}

function answerNamed({ nothing }: ThreatNumbers, id: string): Answer | undefined {
  return nothing.find((answer) => (answer.kind === 'estimated' ? answer.estimate.id : answer.notEstimated.id) === id);
}

function opposite(direction: ReturnType<typeof pushOf>): Direction {
  return direction === 'towards the claim' ? 'away from the claim' : 'towards the claim';
}

export const beforeTreatment = negativeControl({
  code: 'placebo-dates',
  name: 'An effect before the treatment',
  lookedFor: 'the arms drifted apart before the treatment (placebo date, a negative control in time)',
  follows: 'The arms were drifting apart before anything was done; some of the difference may be that drift.',
  remedy: 'Read on several days over a year before the treatment.',
  needs: 'readings on at least two days before the treatment',
  // A single series has searches of its own.
  isOf: ({ series, primary }) => series?.checks === undefined || primary.kind !== 'estimated',
});

export const outOfReach = negativeControl({
  code: 'out-of-reach',
  name: 'An effect where none can be',
  lookedFor: 'the arms differ above the reach of the treatment (negative control)',
  follows: 'The arms differ even where the treatment cannot act, so something else sets them apart.',
  remedy: 'Read stations above the damp zone as well, and say in the plan from which height.',
  needs: '`unaffectedAbove_mm` in the plan, and stations above it with their heights',
});

export const shamActed = negativeControl({
  code: 'sham-against-control',
  name: 'A sham that acts',
  lookedFor: 'sham walls changed differently from walls with nothing on them (negative control)',
  follows:
    'Sham walls changed differently from walls with nothing on them: mounting, visits or attention did something by themselves.',
  remedy: 'Treat sham and plain walls alike in all but the sham, and randomise both.',
  needs: 'several walls with a sham and several without',
  // A sham that dries walls hides part of what the treatment does beyond it.
  isTurnedRound: true,
});

export const outsideMoved = negativeControl({
  code: 'untreated-outside',
  name: 'Untreated walls outside the comparison',
  lookedFor:
    'untreated walls that the plan left out changed differently from those in the comparison (negative control)',
  follows:
    'Untreated walls outside the comparison changed differently from those in it, so something other than the treatment moves walls here.',
  remedy:
    'Name in the plan the untreated walls that stand outside, such as inner walls, and read them like the others.',
  needs: 'several untreated walls outside the comparison, read in both windows',
});

export const carriedOver = negativeControl({
  code: 'carry-over',
  name: 'Carry-over to neighbours',
  lookedFor: 'untreated walls beside a treated one changed differently from the others',
  follows: 'Untreated walls beside treated ones changed differently from the others.',
  remedy: 'Keep untreated walls apart from treated ones.',
  needs: '`neighbours` in `walls.csv`, with two untreated walls of either sort',
  // A treatment that reaches the untreated walls hides its own effect.
  isTurnedRound: true,
  direction: 'away from the claim',
});
