import type { Estimate, LeftOneOut } from '../../../analysis/index.js';
import type { VerdictCode } from '../../../analysis/verdict-code.js';
import { verdictCode } from '../../../analysis/verdict-code.js';
import { limits } from '../../../findings/limits.js';
import { labelOf } from '../../../labels/index.js';
import type { Interval } from '../../../statistics/index.js';
import { formatSigned } from '../../../words/format-number.js';
import { decimalsOf } from '../../../words/movement.js';
import { countInWords, listInWords } from '../../../words/quantity.js';
import type { Facts } from '../facts.js';
import { type Finding, found, notFound, type Search } from '../threat.js';
import { numbersOf, unitOf } from '../threat-words.js';
import { verdictInWords } from '../turn-in-words.js';

type Code = Exclude<VerdictCode, 'not-answerable'>;

/** The verdict of an interval; nothing where the answer has none. */
function codeOf(facts: Facts, interval: Interval | undefined): Code | undefined {
  const { margin, outcome } = facts.trial.protocol;
  return interval && verdictCode(interval, margin, outcome.better);
}

function ownCode(facts: Facts): Code | undefined {
  return facts.primary.kind === 'estimated' ? codeOf(facts, facts.primary.estimate.interval) : undefined;
}

/** Where the verdicts stand, from the best to the worst for the claim. */
const standing: Readonly<Record<Code, number>> = {
  worthwhile: 3,
  'some-effect': 2,
  'smaller-than-worthwhile': 1,
  undecided: 1,
  'no-worthwhile-effect': 0,
  harmful: -1,
};

/** Beside another shade of the same answer there is another answer: two steps away, such as worthwhile and undecided. */
function isReversed(own: Code, other: Code): boolean {
  return Math.abs(standing[own] - standing[other]) > 1;
}

function withoutOne(facts: Facts, left: readonly LeftOneOut[]): Finding | undefined {
  const own = ownCode(facts);
  if (own === undefined || facts.primary.kind !== 'estimated') return undefined;
  const answers = left.flatMap(({ of, left: name, answer }) =>
    answer.kind === 'estimated' ? [{ name: `${of} ${name}`, of, estimate: answer.estimate }] : [],
  );
  const sorted = answers.toSorted((one, other) => one.estimate.estimate - other.estimate.estimate);
  const [least, most] = [sorted[0], sorted.at(-1)];
  if (least === undefined || most === undefined) return undefined;
  const turned = answers.flatMap(({ name, estimate }) => {
    const code = codeOf(facts, estimate.interval);
    return code === undefined || code === own ? [] : [{ name, code }];
  });
  const decimals = decimalsOf(facts.primary.estimate.interval);
  const range = `With one ${[...new Set(answers.map(({ of }) => of))].join(' or ')} left out, the difference runs from ${formatSigned(least.estimate.estimate, decimals)} (without ${least.name}) to ${formatSigned(most.estimate.estimate, decimals)} ${unitOf(facts)} (without ${most.name}).`;
  const measure = { value: turned.length / answers.length, unit: 'share of those that change the verdict' };
  if (turned.length === 0) return notFound(`${range} None changes the verdict.`, { measure, tipping: none });
  const named = turned.map(({ name, code }) => `${name} (${verdictInWords(code)})`);
  return found(
    turned.some(({ code }) => isReversed(own, code)) ? 'serious' : 'minor',
    `${range} Without ${listInWords(named, 4)} the verdict changes.`,
    { measure, tipping: `The verdict changes without ${listInWords(named, 4)}.` },
  );
}

const none = 'No single one left out changes the verdict.';

export const turnsWithoutOne: Search = {
  code: 'turns-without-one',
  domain: 'choice-of-result',
  name: 'A verdict that depends on one unit',
  lookedFor: 'the verdict changes when one wall, or one block, is left out',
  direction: 'either way',
  remedy: 'Have more walls.',
  countsWith: 'fragility',
  look: ({ facts, numbers: { leaveOneOut } }) =>
    withoutOne(
      facts,
      leaveOneOut.filter(({ of }) => of !== 'reader'),
    ),
};

export const turnsWithoutReader: Search = {
  code: 'turns-without-reader',
  domain: 'choice-of-result',
  name: 'A verdict that depends on one reader',
  lookedFor: 'the verdict changes when one reader’s readings are left out',
  direction: 'either way',
  remedy: 'Have each wall read by several people.',
  restsOn: ['readers'],
  countsWith: 'fragility',
  look: ({ facts, numbers: { leaveOneOut } }) =>
    withoutOne(
      facts,
      leaveOneOut.filter(({ of }) => of === 'reader'),
    ),
};

export const turnsAmongBlind: Search = {
  code: 'turns-among-blind',
  domain: 'choice-of-result',
  name: 'A verdict that blind readings do not bear out',
  lookedFor: 'the verdict changes among the readings that were taken blind',
  direction: 'towards the claim',
  remedy: 'Have all readings taken blind.',
  restsOn: ['readers'],
  countsWith: 'fragility',
  look: ({ facts, numbers: { knowledge } }) => {
    const blind = knowledge.answers.find(({ knew }) => knew === 'no')?.answer;
    const own = ownCode(facts);
    const { counts } = knowledge;
    const isAll = counts.yes + counts.unsure + counts.unrecorded === 0;
    if (blind?.kind !== 'estimated' || own === undefined || isAll) return undefined;
    const code = codeOf(facts, blind.estimate.interval);
    if (code === undefined) return undefined;
    const text = `After readings taken blind alone: ${numbersOf(blind.estimate)}, ${verdictInWords(code)}.`;
    const tipping = code === own ? none : 'The verdict changes among blind readings.';
    if (code === own) return notFound(text, { tipping: 'The verdict is the same among blind readings.' });
    return found(isReversed(own, code) ? 'serious' : 'minor', text, { tipping });
  },
};

export const turnsWithChoices: Search = {
  code: 'turns-with-choices',
  domain: 'choice-of-result',
  name: 'A verdict that depends on the choice of analysis',
  lookedFor: 'other analyses that could have been defended beforehand lead to another verdict',
  direction: 'either way',
  remedy: 'Fix one analysis in the plan, and have so many walls that a defensible other one says the same.',
  countsWith: 'fragility',
  look: ({ facts, numbers: { choices } }) => {
    const own = ownCode(facts);
    const estimates = choices.flatMap((answer) => (answer.kind === 'estimated' ? [answer.estimate] : []));
    const others = estimates.flatMap((estimate): (Estimate & { readonly code: Code })[] => {
      const code = codeOf(facts, estimate.interval);
      return code === undefined ? [] : [{ ...estimate, code }];
    });
    if (own === undefined || others.length === 0) return undefined;
    const kept = others.filter(({ code }) => code === own).length;
    const share = kept / others.length;
    const text = `${kept} of ${countInWords(others.length, 'defensible analysis', 'defensible analyses')} (other windows, stations, ranks, blocks ignored) lead to the same verdict.`;
    const measure = { value: share, unit: 'share of analyses' };
    const turned = others
      .filter(({ code }) => code !== own)
      .map((estimate) => `${labelOf(estimate)}: ${verdictInWords(estimate.code)}`);
    if (share >= limits.choicesKept.value)
      return notFound(text, {
        measure,
        tipping: turned.length === 0 ? 'None of them changes the verdict.' : `Others: ${listInWords(turned, 4)}.`,
      });
    return found('minor', `${text} Others: ${listInWords(turned, 4)}.`, {
      measure,
      tipping: `The verdict changes with ${others.length - kept} of ${countInWords(others.length, 'other defensible analysis', 'other defensible analyses')}.`,
    });
  },
};
