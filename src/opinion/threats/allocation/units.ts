import { countInWords } from '../../../words/quantity.js';
import { found, notFound, type Search } from '../threat.js';

const kinds = {
  wall: ['wall', 'walls'],
  site: ['site', 'sites'],
  block: ['block', 'blocks'],
  strip: ['stretch of wall', 'stretches of wall'],
} as const;

export const wallsOfOneHouse: Search = {
  code: 'walls-of-one-house',
  domain: 'allocation',
  name: 'Walls allocated together',
  lookedFor: 'walls of one house were allocated together and would count as one',
  direction: 'either way',
  remedy: 'Allocate walls inside each house, or plan the trial with houses as the units (`allocation.unit`).',
  restsOn: ['walls'],
  look: ({ facts: { units, walls } }) => {
    if (units.kind === 'strip' || walls.length === 0) return undefined;
    if (units.kind === 'wall') return notFound('Each wall was allocated by itself.');
    const [one, several] = kinds[units.kind];
    const count = countInWords(units.units.length, one, several);
    const text = `The ${walls.length} walls stand in ${count}, each of them wholly in one arm: these are the units, each by the mean of its walls.`;
    const measure = { value: units.units.length, unit: several };
    return units.isStated
      ? notFound(`${text} The plan says so.`, { measure })
      : found('minor', `${text} The plan does not say so.`, { measure });
  },
};

export const stripsOfOneWall: Search = {
  code: 'strips-of-one-wall',
  domain: 'allocation',
  name: 'Strips of one wall',
  lookedFor: 'strips of one wall are counted as walls',
  direction: 'either way',
  remedy: 'Take walls that share neither masonry nor ground; a strip is a place on a wall.',
  look: ({ facts: { units, walls } }) => {
    if (units.kind !== 'strip') return undefined;
    return found(
      'serious',
      `${walls.length} “walls” are neighbours in one site and block: strips of one wall. Those of one arm count as one, which leaves ${countInWords(units.units.length, 'stretch of wall', 'stretches of wall')}. They share masonry and ground, and say nothing of other walls.`,
      { measure: { value: units.units.length, unit: 'stretches of wall' } },
    );
  },
};
