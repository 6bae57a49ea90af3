import { quoteInWords } from '../../../words/quantity.js';
import { found, notFound, type Search, silent } from '../threat.js';

export const interestsNotStated: Search = {
  code: 'interests-not-stated',
  domain: 'choice-of-result',
  name: 'Who paid and who gains',
  lookedFor: 'the plan says who paid and who gains by the result',
  direction: 'towards the claim',
  remedy: 'State who paid for the trial and what interest anybody in it has in the result.',
  restsOn: ['interests'],
  look: ({ facts: { trial } }) => {
    const { funding, interests } = trial.protocol.disclosures;
    const missing = [
      ...(funding.trim() === '' ? [['`disclosures.funding`', 'who paid'] as const] : []),
      ...(interests.trim() === '' ? [['`disclosures.interests`', 'who gains'] as const] : []),
    ];
    if (missing.length === 0) return notFound('The plan states who paid and who gains.');
    return silent(
      `${missing.map(([key]) => key).join(' and ')} in the plan`,
      `The plan does not state ${missing.map(([, what]) => what).join(' or ')}.`,
    );
  },
};

/** Of whoever makes, sells or fits what is tried, in the languages of the trade on the continent. Free text is judged by its words. */
const sellerWords =
  /manufactur|\bmaker|vendor|seller|\bsold\b|\bsells?\b|supplier|dealer|distributor|installer|contractor|licen[cs]ee|patent|shareholder|commission|royalt|inventor|hersteller|verk[aä]uf|lieferant|händler|vertreib|fabricant|vendeur|fabricante|vendedor|produttore|venditore/i;

/** Nobody has an interest. */
const noneWords = /^(none|no|nil|nobody|no one|no interests?|n\/a|keine?|aucun|ninguno?|nessuno)\b/i;

/** “none; the maker was not involved” speaks of a seller only to say that he had no part. */
function namesSeller(text: string): boolean {
  return !noneWords.test(text.trim()) && sellerWords.test(text);
}

export const sellerInterest: Search = {
  code: 'seller-interest',
  domain: 'choice-of-result',
  name: 'A seller’s payment or interest',
  lookedFor: 'somebody who makes, sells or fits the treatment paid for the trial or gains by it',
  direction: 'towards the claim',
  remedy: 'Have the trial paid for and made by people who gain nothing by its result.',
  restsOn: ['interests'],
  look: ({ facts: { trial } }) => {
    const { funding, interests } = trial.protocol.disclosures;
    const stated = [funding, interests].filter((text) => text.trim() !== '');
    if (stated.length === 0) return undefined;
    const sellers = stated.filter(namesSeller);
    if (sellers.length === 0) return notFound(`Stated: ${stated.map((text) => quoteInWords(text)).join('; ')}.`);
    return found(
      'minor',
      `The plan states an interest of somebody who makes, sells or fits the treatment: ${sellers.map((text) => quoteInWords(text)).join('; ')}. Whoever gains by a result can steer it without meaning to.`,
    );
  },
};
