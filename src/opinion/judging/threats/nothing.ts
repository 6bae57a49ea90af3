import type { Answer } from '../../../analysis/index.js';
import type { Facts } from '../../weaknesses/facts.js';
import type { Threat } from '../judging.js';
import { beforeInSeries } from './before-in-series.js';
import { isSmall, type Numbers, numbersOf, pushOf, turnOf } from './threat-words.js';

interface NullTest extends Pick<Threat, 'code' | 'name' | 'avoid'> {
  readonly found: string;
  readonly none: string;
  /** Whether what is found there pushes the result the other way. */
  readonly isTurnedRound?: boolean;
  /** Where it would push if it could be looked for; `either way` unless told. */
  readonly openDirection?: Threat['direction'];
}

/** A test that should find nothing, in words. */
function nullTest(facts: Facts, numbers: Numbers, words: NullTest): Threat | undefined {
  const { found, none, isTurnedRound = false, openDirection = 'either way', ...rest } = words;
  const answer = answerNamed(numbers, words.code);
  if (answer === undefined) return undefined;
  if (answer.kind === 'not-estimated') {
    const fact = `Cannot be looked for: ${answer.notEstimated.reason}.`;
    const turn = turnOf(facts, numbers, openDirection);
    return { ...rest, fact, outcome: 'open', direction: openDirection, turn, inference: 'Left open.' };
  }
  const warns = isSmall(facts, answer);
  const push = pushOf(facts, answer.estimate.estimate);
  const direction = isTurnedRound ? opposite(push) : push;
  return {
    ...rest,
    fact: `${numbersOf(answer.estimate)}.`,
    outcome: warns ? 'warns' : 'quiet',
    direction,
    turn: turnOf(facts, numbers, direction),
    inference: warns ? found : none,
  };
}

function answerNamed({ nothing }: Numbers, id: string): Answer | undefined {
  return nothing.find((answer) => (answer.kind === 'estimated' ? answer.estimate.id : answer.notEstimated.id) === id);
}

function opposite(direction: ReturnType<typeof pushOf>): Threat['direction'] {
  return direction === 'towards the claim' ? 'away from the claim' : 'towards the claim';
}

export function beforeTreatment(facts: Facts, numbers: Numbers): Threat | undefined {
  const named = {
    code: 'placebo-dates',
    name: 'An effect before the treatment',
    avoid: 'Read on several days over a year before the treatment.',
  };
  const checks = facts.series?.checks;
  if (checks !== undefined && facts.primary.kind === 'estimated')
    return { ...named, ...beforeInSeries(facts, numbers, checks) };
  return nullTest(facts, numbers, {
    ...named,
    found: 'The arms were drifting apart before anything was done; some of the difference may be that drift.',
    none: 'No drift apart before the treatment was found; a small one may have gone unseen.',
  });
}

export function outOfReach(facts: Facts, numbers: Numbers): Threat | undefined {
  return nullTest(facts, numbers, {
    code: 'out-of-reach',
    name: 'An effect where none can be',
    found: 'The arms differ even where the treatment cannot act, so something else sets them apart.',
    none: 'No difference was found where the treatment cannot act; a small one may have gone unseen.',
    avoid: 'Read stations above the damp zone as well, and say in the plan from which height.',
  });
}

export function shamActed(facts: Facts, numbers: Numbers): Threat | undefined {
  return nullTest(facts, numbers, {
    code: 'sham-against-control',
    name: 'A sham that acts',
    found:
      'Sham walls changed differently from walls with nothing on them, so that mounting, visits or attention did something by themselves.',
    none: 'Sham walls changed no differently from walls with nothing on them; a small difference may have gone unseen.',
    avoid: 'Treat sham and plain walls alike in all but the sham, and draw both by lot.',
    // A sham that dries walls hides part of what the treatment does beyond it.
    isTurnedRound: true,
  });
}

export function outsideMoved(facts: Facts, numbers: Numbers): Threat | undefined {
  return nullTest(facts, numbers, {
    code: 'untreated-outside',
    name: 'Untreated walls outside the comparison',
    found:
      'Untreated walls that the plan left out of the comparison changed differently from those in it, so something other than the treatment moves walls here.',
    none: 'Untreated walls outside the comparison changed no differently from those in it; a small difference may have gone unseen.',
    avoid:
      'Name in the plan the untreated walls that stand outside, such as inner walls, and read them like the others.',
  });
}

export function unlikeBefore(facts: Facts, numbers: Numbers): Threat | undefined {
  return nullTest(facts, numbers, {
    code: 'baseline-difference',
    name: 'Walls unlike at the start',
    found:
      'The arms differed before the treatment by more than chance usually makes; see the baseline-adjusted analysis.',
    none: 'The arms were no more unlike before the treatment than chance makes them.',
    avoid: 'Pair the walls by their before values.',
    // Walls that start worse come down by themselves.
    isTurnedRound: true,
  });
}

export function carriedOver(facts: Facts, numbers: Numbers): Threat | undefined {
  return nullTest(facts, numbers, {
    code: 'carry-over',
    name: 'Carry-over to neighbours',
    found: 'Untreated walls beside treated ones changed differently from the others.',
    none: 'Untreated walls beside treated ones changed no differently from the others; a small difference may have gone unseen.',
    avoid: 'Keep untreated walls apart from treated ones.',
    // A treatment that reaches the untreated walls hides its own effect.
    isTurnedRound: true,
    openDirection: 'away from the claim',
  });
}
