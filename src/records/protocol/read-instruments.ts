import type { InstrumentKind } from '../../trial/index.js';
import { isOfRealSize } from '../cells/number-cell.js';
import { alternatives, quoted } from '../quoted.js';
import type { NamedInstrument } from './findings.js';
import { choiceOf, fieldsOf, type JsonFields, listOf, numberOf, refuse, textOf } from './json-fields.js';

export const instrumentKinds: readonly InstrumentKind[] = [
  'gravimetric',
  'microwave',
  'resistance',
  'capacitance',
  'humidity-probe',
  'embedded-sensor',
  'potential',
  'direct',
];

const balanceKeys = ['resolution_g', 'standard_uncertainty_g'] as const;
const potentialKeys = ['electrode', 'reference', 'polarity', 'impedance_mohm'] as const;
const directions = ['with-moisture', 'against-moisture'] as const;
/** Instruments without a meter's reading that could run either way. */
const notMeters: readonly InstrumentKind[] = ['gravimetric', 'potential', 'direct'];
const polarities = ['point-minus-reference', 'reference-minus-point'] as const;

/** The instruments, whether or not more than their names is right; nothing when a name is missing or stands there twice. */
export function readInstruments(root: JsonFields): readonly NamedInstrument[] | undefined {
  const expected = 'a list of at least one instrument, each { "instrument": …, "kind": … }';
  const entries = listOf(root.need('instruments', expected), expected);
  if (entries === undefined) return undefined;
  const instruments: NamedInstrument[] = [];
  for (const entry of entries) {
    const fields = fieldsOf(entry, ['instrument', 'kind', ...balanceKeys, ...potentialKeys, 'readingRises']);
    if (fields === undefined) continue;
    const instrument = textOf(fields.need('instrument', 'the name of the instrument'), 'a name, a text in quotes');
    const kind = choiceOf(fields.need('kind', alternatives(instrumentKinds)), instrumentKinds);
    const further = { ...readBalance(fields, kind), ...readPotential(fields, kind), ...readDirection(fields, kind) };
    if (instrument === undefined) continue;
    if (instruments.some((other) => other.instrument === instrument)) {
      refuse(fields.get('instrument') ?? entry, 'each instrument once', {
        found: `the instrument ${quoted(instrument)} twice`,
      });
    } else instruments.push({ instrument, ...(kind === undefined ? {} : { kind }), ...further });
  }
  return instruments.length === entries.length ? instruments : undefined;
}

function readBalance(fields: JsonFields, kind: InstrumentKind | undefined): Partial<NamedInstrument> {
  const balance: { -readonly [key in (typeof balanceKeys)[number]]?: number } = {};
  for (const key of balanceKeys) {
    const place = fields.get(key);
    if (place !== undefined && kind !== undefined && kind !== 'gravimetric') {
      refuse(place, 'it only with the kind gravimetric, where a balance is used', {
        found: `${key} with kind ${kind}`,
      });
    }
    const value = numberOf(place, 'a number of grams above 0', (value) => value > 0 && isOfRealSize(value));
    if (value !== undefined) balance[key] = value;
  }
  return balance;
}

function readDirection(fields: JsonFields, kind: InstrumentKind | undefined): Partial<NamedInstrument> {
  const place = fields.get('readingRises');
  if (place !== undefined && kind !== undefined && notMeters.includes(kind)) {
    refuse(place, 'it only with a meter, such as the kind resistance', { found: `readingRises with kind ${kind}` });
    return {};
  }
  const readingRises = choiceOf(place, directions);
  return readingRises === undefined ? {} : { readingRises };
}

/** How a voltage was taken. Its sign means nothing without what touches the wall, the reference and the polarity. */
function readPotential(fields: JsonFields, kind: InstrumentKind | undefined): Partial<NamedInstrument> {
  for (const key of potentialKeys) {
    const place = fields.get(key);
    if (place === undefined || kind === undefined || kind === 'potential') continue;
    refuse(place, 'it only with the kind potential', { found: `${key} with kind ${kind}` });
  }
  const stated = (key: (typeof potentialKeys)[number], expected: string) =>
    kind === 'potential' ? fields.need(key, expected) : fields.get(key);
  const touching = 'what touches the wall, a text in quotes';
  const against = 'what the wall is measured against and where that is, a text in quotes';
  const electrode = textOf(stated('electrode', touching), touching);
  const reference = textOf(stated('reference', against), against);
  const polarity = choiceOf(stated('polarity', alternatives(polarities)), polarities);
  const impedance = numberOf(
    fields.get('impedance_mohm'),
    'a number of megohms above 0',
    (value) => value > 0 && isOfRealSize(value),
  );
  return {
    ...(electrode === undefined ? {} : { electrode }),
    ...(reference === undefined ? {} : { reference }),
    ...(polarity === undefined ? {} : { polarity }),
    ...(impedance === undefined ? {} : { impedance_mohm: impedance }),
  };
}
