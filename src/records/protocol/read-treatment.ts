import { present } from '../../plain/present.js';
import type { Treatment } from '../../trial/index.js';
import { alternatives } from '../quoted.js';
import { choiceOf, fieldsOf, type JsonFields, refuse } from './json-fields.js';

const kinds = ['injected', 'cut', 'electrodes', 'device', 'other'] as const;
const polarities = ['anode-in-wall', 'cathode-in-wall'] as const;

/** What kind of treatment is on trial; a polarity belongs to electrodes alone. */
export function readTreatment(root: JsonFields): Treatment | undefined {
  const place = root.get('treatment');
  const fields = place && fieldsOf(place, ['kind', 'polarity']);
  if (fields === undefined) return undefined;
  const kind = choiceOf(fields.need('kind', alternatives(kinds)), kinds);
  const pole = fields.get('polarity');
  const polarity = choiceOf(pole, polarities);
  if (pole !== undefined && kind !== undefined && kind !== 'electrodes')
    refuse(pole, 'no key polarity where the treatment is not by electrodes');
  if (kind === undefined) return undefined;
  return { kind, ...present({ polarity }) };
}
