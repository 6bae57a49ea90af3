import { numberInWords, quoteInWords } from '../../../words/quantity.js';
import { isRandomised } from '../facts.js';
import { found, notFound, type Search, silent } from '../threat.js';

const methods = {
  randomised: 'at random',
  'randomised-in-blocks': 'at random inside blocks',
  'matched-pairs': 'at random inside matched pairs',
} as const;

export const notRandomised: Search = {
  code: 'not-randomised',
  domain: 'allocation',
  name: 'Treated walls chosen, not randomised',
  lookedFor: 'the treated walls were chosen by somebody',
  direction: 'either way',
  remedy: 'Randomise inside pairs or blocks of like walls, by a person outside the trial.',
  restsOn: ['allocation'],
  look: ({ facts, numbers }) => {
    const { method } = facts.trial.protocol.allocation;
    if (method !== 'chosen') return notFound(`The plan says that walls were allocated ${methods[method]}.`);
    const limit = numbers.confounding?.forLimit ?? 1;
    const strength =
      limit === 1
        ? ''
        : ` A cause ${numberInWords(limit)} times as common among treated walls, which made a good result as many times likelier, would bring the interval to zero (E-value); a weaker one could not.`;
    return found(
      'serious',
      `The treated walls were chosen, not randomised. The arms may have differed from the start in ways that nobody recorded.${strength}`,
      limit === 1 ? {} : { measure: { value: limit, unit: 'risk ratio (E-value)' } },
    );
  },
};

export const allocationNotStated: Search = {
  code: 'allocation-not-stated',
  domain: 'allocation',
  name: 'Who allocated the walls',
  lookedFor: 'the plan says by whom the walls were allocated',
  direction: 'towards the claim',
  remedy: 'Have the walls allocated by a person outside the trial, and name that person’s role in the plan.',
  restsOn: ['allocation'],
  look: ({ facts }) => {
    const { by } = facts.trial.protocol.allocation;
    if (by.trim() !== '') return notFound(`The plan names who allocated the walls: ${quoteInWords(by)}.`);
    return silent(
      '`allocation.by` in the plan',
      isRandomised(facts)
        ? 'The plan does not say who allocated the walls. Whoever chooses and treats them may steer a lottery that nobody else saw.'
        : 'The plan does not say who chose the treated walls.',
    );
  },
};
