import { countInWords } from '../../../words/quantity.js';
import { found, notFound, type Search } from '../threat.js';

export const noSham: Search = {
  code: 'no-sham',
  domain: 'departures-and-timing',
  name: 'No sham',
  lookedFor: 'untreated walls had a sham that looks and sounds the same',
  direction: 'towards the claim',
  remedy: 'Fit untreated walls with a sham that looks and sounds the same and does nothing.',
  look: ({ facts }) => {
    const roles = new Map(facts.trial.protocol.arms.map(({ arm, role }) => [arm, role]));
    const untreated = facts.trial.walls.filter(({ wall }) => facts.sides.get(wall) === 'untreated');
    if (untreated.length === 0) return undefined;
    const shams = untreated.filter(({ arm }) => roles.get(arm) === 'sham').length;
    if (shams > 0) return notFound(`${shams} of ${countInWords(untreated.length, 'untreated wall')} had a sham.`);
    return found(
      'minor',
      `${untreated.length === 1 ? 'The untreated wall had no sham' : `None of the ${untreated.length} untreated walls had a sham`}. Those who lived beside the walls or read them could see which were treated, and may have heated, aired or read them differently.`,
    );
  },
};
