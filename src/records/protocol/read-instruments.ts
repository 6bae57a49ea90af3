import { present } from '../../plain/present.js';
import type { InstrumentKind, ReadingScale } from '../../trial/index.js';
import { isOfRealSize } from '../cells/number-cell.js';
import { alternatives, quoted } from '../quoted.js';
import type { NamedInstrument } from './findings.js';
import { choiceOf, fieldsOf, type JsonFields, listOf, numberOf, refuse, textOf } from './json-fields.js';

export const instrumentKinds: readonly InstrumentKind[] = [
  'gravimetric',
  'carbide',
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
const drillingKeys = ['drilling_loss_pct', 'drilling_loss_uncertainty_pct'] as const;
const scales: readonly ReadingScale[] = ['linear', 'logarithmic'];
const directions = ['with-moisture', 'against-moisture'] as const;
/** Instruments without a meter's reading that could run either way. */
const notMeters: readonly InstrumentKind[] = ['gravimetric', 'carbide', 'potential', 'direct'];
const polarities = ['point-minus-reference', 'reference-minus-point'] as const;

/** The instruments, whether or not more than their names is right; nothing when a name is missing or stands there twice. */
export function readInstruments(root: JsonFields): readonly NamedInstrument[] | undefined {
  const expected = `a list of at least one instrument, each { "instrument": …, "kind": … } with the kind ${alternatives(instrumentKinds)}`;
  const entries = listOf(root.need('instruments', expected), expected);
  if (entries === undefined) return undefined;
  const instruments: NamedInstrument[] = [];
  for (const entry of entries) {
    const keys = [...balanceKeys, ...drillingKeys, ...potentialKeys, 'readingRises', 'scale', 'fromTrays'];
    const fields = fieldsOf(entry, ['instrument', 'kind', ...keys]);
    if (fields === undefined) continue;
    const instrument = textOf(fields.need('instrument', 'the name of the instrument'), 'a name, a text in quotes');
    const kind = choiceOf(fields.need('kind', alternatives(instrumentKinds)), instrumentKinds);
    const further = {
      ...readBalance(fields, kind),
      ...readDrilling(fields, kind),
      ...readPotential(fields, kind),
      ...readOfMeter(fields, kind, 'readingRises', directions),
      ...readOfMeter(fields, kind, 'scale', scales),
      ...readTrayKey(fields, kind),
    };
    if (instrument === undefined) continue;
    if (instruments.some((other) => other.instrument === instrument)) {
      refuse(fields.get('instrument') ?? entry, 'each instrument once', {
        found: `the instrument ${quoted(instrument)} twice`,
      });
    } else instruments.push({ instrument, ...present({ kind }), ...further });
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

/** A share of the water that drilling drives out. More than half of it would leave nothing to measure. */
const mostLost_pct = 50;

function readDrilling(fields: JsonFields, kind: InstrumentKind | undefined): Partial<NamedInstrument> {
  const drilling: { -readonly [key in (typeof drillingKeys)[number]]?: number } = {};
  for (const key of drillingKeys) {
    const place = fields.get(key);
    if (place !== undefined && kind !== undefined && kind !== 'gravimetric')
      refuse(place, 'it only with the kind gravimetric, where cores are drilled', {
        found: `${key} with kind ${kind}`,
      });
    const expected = `a percentage of the core’s water from 0 to ${mostLost_pct}`;
    const value = numberOf(place, expected, (number) => number >= 0 && number <= mostLost_pct);
    if (value !== undefined) drilling[key] = value;
  }
  const [loss, uncertainty] = drillingKeys.map((key) => fields.get(key));
  if (loss === undefined && uncertainty !== undefined)
    refuse(uncertainty, 'it only beside drilling_loss_pct, whose standard uncertainty it is');
  return drilling;
}

function readOfMeter<Key extends 'readingRises' | 'scale'>(
  fields: JsonFields,
  kind: InstrumentKind | undefined,
  key: Key,
  words: readonly NonNullable<NamedInstrument[Key]>[],
): Partial<NamedInstrument> {
  const place = fields.get(key);
  if (place !== undefined && kind !== undefined && notMeters.includes(kind)) {
    refuse(place, 'it only with a meter, such as the kind resistance', { found: `${key} with kind ${kind}` });
    return {};
  }
  const word = choiceOf(place, words);
  return word === undefined ? {} : { [key]: word };
}

function readTrayKey(fields: JsonFields, kind: InstrumentKind | undefined): Partial<NamedInstrument> {
  const place = fields.get('fromTrays');
  if (place !== undefined && kind !== undefined && kind !== 'direct')
    refuse(place, 'it only with the kind direct', { found: `fromTrays with kind ${kind}` });
  const fromTrays = choiceOf(place, ['refill', 'mass'] as const);
  return fromTrays === undefined ? {} : { fromTrays };
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
    ...present({ electrode, reference, polarity, impedance_mohm: impedance }),
  };
}
