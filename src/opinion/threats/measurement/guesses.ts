import type { RoleBlinding } from '../../../analysis/index.js';
import { formatNumber, formatPValue, formatSigned } from '../../../words/format-number.js';
import { countInWords, listInWords } from '../../../words/quantity.js';
import { couldNotLook, found, notFound, type Search } from '../threat.js';
import { alarmAt, alarmOf, measureOf, numbersOf, pushOf } from '../threat-words.js';

/**
 * Published reporting guidance no longer asks whether blinding held. Where beliefs were noted they count, for a broken blind is
 * the commonest road to a false effect; where they were not, nothing is held against the trial.
 */
export const armsGuessed: Search = {
  code: 'arms-guessed',
  domain: 'measurement',
  name: 'The arms were guessed',
  lookedFor: 'people guessed the arms more often than chance allows',
  direction: 'towards the claim',
  remedy: 'Ask everybody before the results are seen, note when and why, and take away the cue that gave the arm away.',
  look: ({ numbers: { blinding, guesses } }) => {
    if (blinding.length === 0)
      return couldNotLook(
        '`blinding.csv`: what readers and occupants believed',
        'Nobody was asked what they believed.',
      );
    const tests = guesses.flatMap(({ role, inTime, late }) =>
      [inTime, late].flatMap(({ people, pValue }) => (people === 0 ? [] : [{ role, pValue }])),
    );
    const adjusted = tests.map(({ role, pValue }) => ({ role, pValue: Math.min(1, pValue * tests.length) }));
    const least = Math.min(1, ...adjusted.map(({ pValue }) => pValue));
    const late = blinding.reduce((sum, one) => sum + one.late, 0);
    const lateText =
      late === 0
        ? ''
        : ` ${countInWords(late, 'note')} came after the last reading of the wall, when results may have been known.`;
    const text = `${rightInWords(blinding)} ${blinding.map(guessesInWords).join(' ')} By allocations of the walls that could have been drawn: ${formatPValue(least)}.${lateText}`;
    const more = { measure: { value: rightShare(blinding), unit: 'share of guesses that were right', pValue: least } };
    const alarm = alarmAt(least);
    if (alarm === undefined) return notFound(text, more);
    const roles = adjusted.flatMap(({ role, pValue }) => (alarmAt(pValue) === undefined ? [] : [`${role}s`]));
    return found(
      alarm,
      `${text} More correct guesses than expected by chance (${listInWords([...new Set(roles)])}). They can come from a broken blind, or from a treatment that visibly works.`,
      more,
    );
  },
};

function guessed(blinding: readonly RoleBlinding[]): { readonly right: number; readonly all: number } {
  const sums = blinding.flatMap(({ guesses }) => [guesses.treated, guesses.untreated]);
  const right = sums.reduce((sum, { correct }) => sum + correct, 0);
  return { right, all: right + sums.reduce((sum, { wrong }) => sum + wrong, 0) };
}

function rightShare(blinding: readonly RoleBlinding[]): number {
  const { right, all } = guessed(blinding);
  return all === 0 ? 0 : right / all;
}

function rightInWords(blinding: readonly RoleBlinding[]): string {
  const { right, all } = guessed(blinding);
  return `${right} of ${countInWords(all, 'guess', 'guesses')} at a wall’s arm ${right === 1 ? 'was' : 'were'} right.`;
}

function guessesInWords({ role, guesses, bang, james, people }: RoleBlinding): string {
  const sides = (['treated', 'untreated'] as const).flatMap((side) => {
    const { correct, wrong, undecided } = guesses[side];
    const index = bang[side];
    return index === undefined
      ? []
      : [
          `of ${side} walls ${correct} right, ${wrong} wrong, ${undecided} undecided (Bang’s index ${formatSigned(index.estimate, 2)}, ${formatSigned(index.interval.lower, 2)} to ${formatSigned(index.interval.upper, 2)})`,
        ];
  });
  const both =
    james === undefined
      ? ''
      : `; James’s index of both ${formatNumber(james.estimate, 2)}, ${formatNumber(james.interval.lower, 2)} to ${formatNumber(james.interval.upper, 2)}`;
  return `${countInWords(people, role)}: ${sides.join('; ')}${both}.`;
}

export const knowingReadDifferently: Search = {
  code: 'knowing-read-differently',
  domain: 'measurement',
  name: 'Knowing readers read differently',
  lookedFor: 'who knew the arm read the treated walls differently from who did not, at the same stations',
  direction: 'towards the claim',
  remedy: 'Have walls read by people who cannot tell treated from untreated, and some stations read twice.',
  restsOn: ['readers'],
  look: ({ facts, numbers: { knowledge } }) => {
    const { counts, contrast, answers } = knowledge;
    if (counts.yes === 0 || counts.no === 0) return undefined;
    const each = answers.flatMap(({ knew, answer }) =>
      answer.kind === 'estimated' ? [`${knewWords[knew]} ${numbersOf(answer.estimate)}`] : [],
    );
    const byKnowledge = each.length > 1 ? `Difference by ${each.join('; ')}. ` : '';
    if (contrast.kind !== 'estimated')
      return couldNotLook(
        'some stations read both by somebody who knew and by somebody who did not',
        `${byKnowledge}No stations were read both by somebody who knew and by somebody who did not.`,
      );
    const { estimate } = contrast;
    const text = `${byKnowledge}Knowing less blind readings at the same stations, treated against untreated walls: ${numbersOf(estimate)}.`;
    const more = { measure: measureOf(estimate), direction: pushOf(facts, estimate.estimate) };
    const alarm = alarmOf(contrast);
    return alarm === undefined
      ? notFound(text, more)
      : found(alarm, `${text} The blind readings are the ones to believe.`, more);
  },
};

const knewWords = { no: 'blind readings', unsure: 'unsure readings', yes: 'knowing readings' } as const;

export const weighedAndHeld: Search = {
  code: 'weighed-and-held',
  domain: 'measurement',
  name: 'Weighed against hand-held',
  lookedFor: 'hand-held instruments show a difference that weighed cores do not',
  direction: 'towards the claim',
  remedy: 'Weigh, and use hand-held readings as support only.',
  look: ({ numbers: { instruments } }) => {
    const shown = instruments.filter(({ standardised }) => standardised !== undefined);
    const weighed = shown.find(({ sort }) => sort === 'weighed');
    const held = shown.filter(({ sort }) => sort === 'hand-held');
    if (weighed === undefined || held.length === 0) return undefined;
    const apart = alarmOf(weighed.answer) === undefined && held.some(({ answer }) => alarmOf(answer) !== undefined);
    const text = `Difference in standard deviations of changes: ${[weighed, ...held].map(({ instrument, sort, standardised = 0, answer }) => `${instrument} (${sort}) ${formatSigned(standardised, 2)}${answer.kind === 'estimated' && answer.estimate.pValue !== undefined ? `, ${formatPValue(answer.estimate.pValue)}` : ''}`).join('; ')}.`;
    return apart
      ? found('minor', `${text} Hand-held readings show a difference that weighed cores do not.`)
      : notFound(text);
  },
};
