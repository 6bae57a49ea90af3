import { limits } from '../../../findings/limits.js';
import { countInWords, listInWords, numberInWords } from '../../../words/quantity.js';
import { found, notFound, type Search } from '../threat.js';

/** A wall that was given too little is treated in name: it pulls the treated mean towards the untreated one. */
export const doseBelowPlanned: Search = {
  code: 'dose-below-planned',
  domain: 'departures-and-timing',
  name: 'Injected less than planned',
  lookedFor: 'treated walls were given less of the product than planned',
  direction: 'away from the claim',
  remedy: 'Measure what each wall takes up while it is injected, and go on until it has its dose.',
  look: ({ numbers: { injection } }) => {
    if (injection?.leastShare === undefined) return undefined;
    const short = injection.walls.filter(
      ({ side, litres_per_m, plannedLitres_per_m }) =>
        side === 'treated' &&
        plannedLitres_per_m !== undefined &&
        litres_per_m < limits.doseOfPlanned.value * plannedLitres_per_m,
    );
    const measure = { value: injection.leastShare, unit: 'smallest share of the planned dose' };
    const least = `${numberInWords(100 * injection.leastShare, 0)} %`;
    if (short.length === 0)
      return notFound(`The treated wall that was given least was given ${least} of its planned dose.`, { measure });
    return found(
      'minor',
      `${countInWords(short.length, 'treated wall')} (${listInWords(short.map(({ wall }) => wall))}) ${short.length === 1 ? 'was' : 'were'} given less than ${100 * limits.doseOfPlanned.value} % of the planned dose, the least ${least}.`,
      { measure },
    );
  },
};

export const dosesUnlike: Search = {
  code: 'doses-unlike',
  domain: 'departures-and-timing',
  name: 'Doses that differ',
  lookedFor: 'treated walls were given widely different doses',
  direction: 'either way',
  remedy: 'Give each wall the same litres per metre, or randomise the doses.',
  look: ({ numbers: { injection } }) => {
    if (injection === undefined) return undefined;
    const { least, most } = injection.doses;
    const text = `The treated walls were given ${numberInWords(least)} to ${numberInWords(most)} litres per metre.`;
    const measure = { value: most / least, unit: 'largest dose over smallest' };
    if (most / least < limits.dosesUnlike.value) return notFound(text, { measure });
    return found(
      'minor',
      `${text} The difference between the arms is that of a mixture of doses, and of no one of them.`,
      {
        measure,
      },
    );
  },
};

export const lotsDiffer: Search = {
  code: 'lots-differ',
  domain: 'departures-and-timing',
  name: 'Several lots of the product',
  lookedFor: 'the treated walls were injected from several lots of the product',
  direction: 'either way',
  remedy: 'Inject all walls from one lot, or keep a sample of each and have it analysed.',
  look: ({ numbers: { injection } }) => {
    if (injection === undefined || injection.lots.length === 0) return undefined;
    const measure = { value: injection.lots.length, unit: 'lots' };
    const text = `The treated walls were injected from ${countInWords(injection.lots.length, 'lot')} (${listInWords(injection.lots)}).`;
    return injection.lots.length === 1
      ? notFound(text, { measure })
      : found('minor', `${text} A lot that differs makes walls differ that were meant to be treated alike.`, {
          measure,
        });
  },
};
