import { present } from '../../plain/present.js';
import type { Outcome } from '../../trial/index.js';
import { alternatives } from '../quoted.js';
import type { NamedInstrument } from './findings.js';
import { choiceOf, fieldsOf, type JsonFields, type JsonPlace, refuse, refuseWord, textOf } from './json-fields.js';

export const betterDirections = ['lower', 'higher'] as const;

/** The outcome; its instrument must be one of the protocol's. */
export function readOutcome(
  root: JsonFields,
  instruments: readonly NamedInstrument[] | undefined,
): Partial<Outcome> | undefined {
  const place = root.need('outcome', 'an object with the keys instrument, quantity, unit, better (lower or higher)');
  return place && readOutcomeAt(place, instruments);
}

/** An outcome wherever it stands, primary or not. */
export function readOutcomeAt(
  place: JsonPlace,
  instruments: readonly NamedInstrument[] | undefined,
): Partial<Outcome> | undefined {
  const fields = fieldsOf(place, ['instrument', 'quantity', 'unit', 'better']);
  if (fields === undefined) return undefined;
  const instrumentPlace = fields.need('instrument', 'the name of one of the instruments');
  const instrument = textOf(instrumentPlace, 'the name of one of the instruments');
  const names = instruments?.map((one) => one.instrument) ?? [];
  if (instrumentPlace !== undefined && instrument !== undefined && instruments && !names.includes(instrument)) {
    refuseWord(instrumentPlace, `one of the instruments: ${alternatives(names)}`, names);
  }
  const quantity = textOf(fields.need('quantity', 'what is measured'), 'what is measured, such as "moisture content"');
  const unit = textOf(fields.need('unit', 'the unit of the outcome'), 'the unit of the outcome, such as "% by mass"');
  const betterPlace = fields.need('better', alternatives(betterDirections));
  const better = choiceOf(betterPlace, betterDirections);
  const meter = instruments?.find((one) => one.instrument === instrument);
  if (betterPlace !== undefined && better === 'lower' && meter?.readingRises === 'against-moisture')
    refuse(betterPlace, 'higher, for the plan says that this meter falls where moisture rises');
  return {
    ...present({ instrument, quantity, unit, better }),
  };
}
