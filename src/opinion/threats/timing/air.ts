import { numberInWords } from '../../../words/quantity.js';
import { comparedWalls } from '../facts.js';
import { found, notFound, type Search, silent } from '../threat.js';

export const airNotRecorded: Search = {
  code: 'air-not-recorded',
  domain: 'departures-and-timing',
  name: 'The air beside both arms',
  lookedFor: 'the air was recorded beside walls of both arms, or both stand under one roof',
  direction: 'either way',
  remedy: 'Record temperature and humidity beside walls of both arms, in both windows.',
  restsOn: ['air'],
  look: ({ facts }) => {
    if (facts.walls.length === 0) return undefined;
    const { cover } = facts.drying.airBeside;
    if (cover === 'one-roof') return notFound('Walls of both arms stand under one roof, at the same sites.');
    if (cover === 'both-recorded') return notFound('The air is on record beside walls of both arms, in both windows.');
    const text =
      cover === 'general-only'
        ? 'Air is on record in both windows, but not beside walls of both arms.'
        : 'No air is on record in both windows.';
    const needs =
      'a `place` in `climate.csv` for the `site` of walls of each arm, with temperature and humidity in both windows';
    // Where no site is stated, the record cannot be placed: that silence is one of the walls and counts there.
    const hasSites = comparedWalls(facts).some(({ site }) => site !== undefined);
    const isOfSites = cover === 'general-only' && !hasSites;
    return {
      ...silent(needs, `${text} Heating, a dehumidifier or open windows beside one arm would look like a treatment.`),
      ...(isOfSites ? { restsOn: ['air', 'walls'] as const } : {}),
    };
  },
};

export const airUnlike: Search = {
  code: 'air-unlike',
  domain: 'departures-and-timing',
  name: 'Different air beside the arms',
  lookedFor: 'the air beside the arms changed differently from before to after',
  direction: 'either way',
  remedy: 'Keep heating, airing and dehumidifiers alike beside both arms, and record them.',
  restsOn: ['air'],
  look: ({ facts }) => {
    const air = facts.drying.airOfArms;
    if (air?.ratio === undefined) return undefined;
    const { treated, untreated } = air.sides;
    const pa = (value: number) => `${numberInWords(value, 0)} Pa`;
    const text = `Evaporation potential before and after: treated walls ${pa(treated.before_pa)} and ${pa(treated.after_pa)}, untreated ${pa(untreated.before_pa)} and ${pa(untreated.after_pa)}.`;
    const measure = { value: air.ratio, unit: 'ratio of the changes, treated over untreated' };
    const isDrierBesideTreated = air.ratio > 1;
    const direction =
      isDrierBesideTreated === (facts.trial.protocol.outcome.better === 'lower')
        ? ('towards the claim' as const)
        : ('away from the claim' as const);
    if (air.airUnlike !== true) return notFound(text, { measure, direction });
    return found('serious', `${text} Drier air beside one arm dries its walls, with or without a treatment.`, {
      measure,
      direction,
    });
  },
};
