import { limits } from '../../../findings/limits.js';
import { present } from '../../../plain/present.js';
import { formatSigned } from '../../../words/format-number.js';
import { decimalsOf } from '../../../words/movement.js';
import { countInWords } from '../../../words/quantity.js';
import { kindOfOutcome } from '../facts.js';
import { found, notFound, type Search } from '../threat.js';
import { unitOf } from '../threat-words.js';

export const checksDrifted: Search = {
  code: 'checks-drift',
  domain: 'measurement',
  name: 'An instrument that drifted',
  lookedFor: 'the instrument drifted on blocks that do not change',
  direction: 'either way',
  remedy: 'Correct or replace an instrument as soon as it reads a check block differently.',
  restsOn: ['instrument'],
  look: ({ facts, numbers: { checks } }) => {
    if (checks === undefined || kindOfOutcome(facts) === 'gravimetric') return undefined;
    const { drift, interval, pValue = 1, blocks } = checks;
    const { margin } = facts.trial.protocol;
    const decimals = interval === undefined ? 2 : decimalsOf(interval);
    const limitsText =
      interval === undefined
        ? ''
        : ` (interval ${formatSigned(interval.lower, decimals)} to ${formatSigned(interval.upper, decimals)})`;
    const text = `From the before to the after window the instrument moved by ${formatSigned(drift, decimals)} ${unitOf(facts)}${limitsText} on ${countInWords(blocks, 'check block')}.`;
    const measure = { value: drift, unit: unitOf(facts), ...present({ interval }) };
    if (pValue >= limits.alarm.value) return notFound(text, { measure });
    return found(
      margin !== undefined && Math.abs(drift) >= margin ? 'serious' : 'minor',
      `${text} Both arms share a drift only as far as both were read with the same instrument on the same days.`,
      { measure },
    );
  },
};
