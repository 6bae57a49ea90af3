import { limits } from '../../../findings/limits.js';
import { deliquescenceHumidity } from '../../../moisture/index.js';
import { listInWords, numberInWords } from '../../../words/quantity.js';
import type { Facts } from '../facts.js';
import { found, notFound, type Search } from '../threat.js';

/** Of a room, where a batch does not say. */
const usual_c = 20;

export const conditionedNearSalt: Search = {
  code: 'conditioned-near-salt',
  domain: 'measurement',
  name: 'Conditioning where common salt dissolves',
  lookedFor: 'cores were conditioned close to the humidity at which common salt dissolves',
  direction: 'either way',
  remedy: 'Condition a few points of humidity away from 75.5 %, and measure the humidity reached.',
  restsOn: ['instrument'],
  look: ({ facts }) => {
    const conditioned = conditions(facts);
    const [nearest] = conditioned.toSorted((one, other) => Math.abs(one.apart) - Math.abs(other.apart));
    if (nearest === undefined) return undefined;
    const text = `Cores were conditioned at ${listInWords([...new Set(conditioned.map(({ humidity_pct }) => `${humidity_pct} %`))])}; common salt dissolves at ${numberInWords(nearest.salt_pct, 1)} %.`;
    const measure = { value: nearest.apart, unit: 'points of humidity from it' };
    if (Math.abs(nearest.apart) > limits.nearSalt_pp.value) return notFound(text, { measure });
    return found(
      'minor',
      `${text} There a chamber a little off gives another hygroscopic moisture altogether where the walls hold common salt.`,
      { measure },
    );
  },
};

function conditions({ trial, sides }: Facts) {
  const humid = new Set(
    trial.cores.flatMap(({ batch, humid_g, wall }) =>
      batch !== undefined && humid_g !== undefined && sides.has(wall) ? [batch] : [],
    ),
  );
  return (trial.batches ?? []).flatMap(({ batch, humidity_pct, humidTemperature_c = usual_c }) => {
    const salt_pct = humid.has(batch) ? deliquescenceHumidity('sodium chloride', humidTemperature_c) : 'not known';
    if (humidity_pct === undefined || salt_pct === 'not known') return [];
    return [{ humidity_pct, salt_pct, apart: humidity_pct - salt_pct }];
  });
}
