import type { RoleBlinding } from '../../../analysis/index.js';
import { formatNumber, formatPValue, formatSigned } from '../../../charts/format-number.js';
import type { Facts } from '../../weaknesses/facts.js';
import { countInWords } from '../../words/quantity.js';
import type { Threat } from '../judging.js';
import { alphaOf, isSmall, type Numbers, numbersOf, pushOf, turnOf } from './threat-words.js';
import { carried, type Ways } from './turn-in-words.js';

const moved: Ways = {
  ...carried,
  flattered: (size) => `Those who guessed would have to move the difference by ${size}`,
};

export function guessed(facts: Facts, numbers: Numbers): Threat {
  const { blinding } = numbers;
  const alpha = alphaOf(facts) / Math.max(1, blinding.length);
  const seen = blinding.filter(({ pValue }) => pValue < alpha);
  const late = blinding.reduce((sum, one) => sum + one.late, 0);
  return {
    code: 'arms-guessed',
    name: 'The arms were guessed',
    fact: blinding.length === 0 ? 'Nobody was asked what they believed.' : blinding.map(guessesInWords).join(' '),
    outcome: blinding.length === 0 ? 'open' : seen.length > 0 ? 'warns' : 'quiet',
    direction: 'towards the claim',
    turn: turnOf(facts, numbers, 'towards the claim', { ways: moved }),
    inference:
      blinding.length === 0
        ? 'Whether the blind held cannot be told.'
        : `${seen.length > 0 ? `More right guesses than a coin makes (${seen.map(({ role }) => `${role}s`).join(', ')}). They can come from a broken blind, or from a treatment that visibly works.` : 'No more right guesses than a coin makes.'}${late > 0 ? ` ${countInWords(late, 'note')} came after the last reading of the wall, when results may have been known.` : ''}`,
    avoid: 'Ask everybody before the results are seen, and note when and why.',
  };
}

function guessesInWords({ role, guesses, bang, james, pValue, people }: RoleBlinding): string {
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
  return `${countInWords(people, role)}: ${sides.join('; ')}${both}; right guesses against a coin ${formatPValue(pValue)}.`;
}

const misread: Ways = {
  flattered: (size) => `Each after reading of a treated wall by somebody who knew would have to be too good by ${size}`,
  hidden: (size) => `Each after reading of a treated wall by somebody who knew would have to be too bad by ${size}`,
};

export function knowingReaders(facts: Facts, numbers: Numbers): Threat {
  const { counts, contrast, answers, movesBy } = numbers.knowledge;
  const knowing = counts.yes;
  const all = counts.yes + counts.no + counts.unsure + counts.unrecorded;
  const estimate = contrast.kind === 'estimated' ? contrast.estimate : undefined;
  const each = answers.flatMap(({ knew, answer }) =>
    answer.kind === 'estimated' ? [`${knewWords[knew]} ${numbersOf(answer.estimate)}`] : [],
  );
  const direction = estimate ? pushOf(facts, estimate.estimate) : 'towards the claim';
  return {
    code: 'readers-knew',
    name: 'Readers who knew the arm',
    fact: `After readings: ${counts.no} blind, ${counts.unsure} unsure, ${knowing} knowing, ${counts.unrecorded} not noted.${each.length > 1 ? ` Difference by ${each.join('; ')}.` : ''}${estimate ? ` Knowing less blind readings at the same stations, treated against untreated walls: ${numbersOf(estimate)}.` : ''}`,
    outcome: isSmall(facts, contrast) ? 'warns' : estimate || counts.no === all ? 'quiet' : 'open',
    direction,
    turn:
      movesBy === undefined
        ? 'No after reading of a treated wall was taken by somebody who knew: nothing to change it.'
        : turnOf(facts, numbers, direction, { ways: misread, each: 1 / movesBy }),
    inference: isSmall(facts, contrast)
      ? 'Who knew read the treated walls differently from who did not. The blind readings are the ones to believe.'
      : estimate
        ? 'Knowing and blind readers cannot be told apart here.'
        : counts.no === all
          ? 'All after readings are noted as blind; there is nothing to compare.'
          : knowing === all
            ? 'All after readings were taken by somebody who knew; there is nothing blind to compare them with.'
            : 'No stations were read both by somebody who knew and by somebody who did not, so the two cannot be compared.',
    avoid: 'Have walls read by people who cannot tell treated from untreated, and some stations read twice.',
  };
}

const knewWords = { no: 'blind readings', unsure: 'unsure readings', yes: 'knowing readings' } as const;

const held: Ways = {
  ...carried,
  flattered: (size) => `Whoever held the instrument would have to move the difference by ${size}`,
};

export function weighedAndHeld(facts: Facts, numbers: Numbers): Threat | undefined {
  const { instruments } = numbers;
  const shown = instruments.filter(({ standardised }) => standardised !== undefined);
  if (shown.length < 2) return undefined;
  const weighed = shown.find(({ sort }) => sort === 'weighed');
  const apart =
    weighed !== undefined &&
    !isSmall(facts, weighed.answer) &&
    shown.some(({ sort, answer }) => sort === 'hand-held' && isSmall(facts, answer));
  const { instrument } = facts.trial.protocol.outcome;
  const isOutcomeHeld = shown.some((one) => one.instrument === instrument && one.sort === 'hand-held');
  return {
    code: 'weighed-and-held',
    name: 'Weighed against hand-held',
    fact: `Difference in standard deviations of changes: ${shown.map(({ instrument, sort, standardised = 0, answer }) => `${instrument} (${sort}) ${formatSigned(standardised, 2)}${answer.kind === 'estimated' && answer.estimate.pValue !== undefined ? `, ${formatPValue(answer.estimate.pValue)}` : ''}`).join('; ')}.`,
    outcome: apart ? 'warns' : weighed === undefined ? 'open' : 'quiet',
    direction: 'towards the claim',
    turn: isOutcomeHeld
      ? turnOf(facts, numbers, 'towards the claim', { ways: held })
      : 'The outcome is not held by hand, so that nothing that is changes the verdict.',
    inference: apart
      ? 'What is held by hand shows a difference that what is weighed does not.'
      : 'What is weighed and what is held by hand do not tell two stories.',
    avoid: 'Weigh, and keep what is held by hand as company.',
  };
}
