import { countInWords } from '../../words/quantity.js';
import { comparedWalls } from '../facts.js';
import { notFound, type Search, silent } from '../threat.js';

export const treatmentDayNotStated: Search = {
  code: 'treatment-day-not-stated',
  domain: 'departures-and-timing',
  name: 'When each wall was treated',
  lookedFor: 'the folder says on which day each treated wall was treated',
  direction: 'either way',
  remedy: 'Write down the day of treatment of every wall (`treated_on`), a sham’s as well.',
  restsOn: ['treatment-day'],
  look: ({ facts }) => {
    const treated = comparedWalls(facts).filter(({ side }) => side === 'treated');
    if (treated.length === 0) return undefined;
    const known = treated.filter(({ treatedOn }) => treatedOn !== undefined).length;
    if (known === treated.length)
      return notFound(`The day of treatment is stated for all ${countInWords(treated.length, 'treated wall')}.`);
    return silent(
      '`treated_on` of every treated wall in `walls.csv`',
      `The day of treatment is stated for ${known} of ${countInWords(treated.length, 'treated wall')}. Readings before and after it cannot be distinguished, nor how long the walls had to dry.`,
    );
  },
};
