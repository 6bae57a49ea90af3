import { present } from '../../plain/present.js';
import type { Outcome, ScreenedWalls } from '../../trial/index.js';
import { isOfRealSize } from '../cells/number-cell.js';
import { quoted } from '../quoted.js';
import type { NamedInstrument } from './findings.js';
import { fieldsOf, type JsonFields, listOf, numberOf, refuse } from './json-fields.js';
import { readOutcomeAt } from './read-outcome.js';

/** The outcomes beside the primary one, in the order in which they are to be tested; each instrument once. */
export function readSecondary(
  root: JsonFields,
  instruments: readonly NamedInstrument[] | undefined,
  primary: Partial<Outcome> | undefined,
): readonly Partial<Outcome>[] | undefined {
  const entries = listOf(root.get('secondary'), 'a list of outcomes, each like outcome');
  const seen = new Set<string | undefined>([primary?.instrument]);
  return entries?.map((entry) => {
    const outcome = readOutcomeAt(entry, instruments) ?? {};
    if (outcome.instrument !== undefined && seen.has(outcome.instrument)) {
      const found = `the instrument ${quoted(outcome.instrument)} twice`;
      refuse(entry, 'an instrument that no other outcome has', { found });
    }
    seen.add(outcome.instrument);
    return outcome;
  });
}

/** The walls among which the wettest were looked for. */
export function readScreened(root: JsonFields): Partial<ScreenedWalls> | undefined {
  const place = root.get('screened');
  const fields = place && fieldsOf(place, ['walls', 'mean', 'standardDeviation', 'cutoff']);
  if (fields === undefined) return undefined;
  const count = 'how many walls were looked at, a whole number from 2';
  const walls = numberOf(fields.need('walls', count), count, (value) => Number.isSafeInteger(value) && value > 1);
  const mean = numberOf(fields.need('mean', 'their mean'), 'their mean, in the unit of the outcome', isOfRealSize);
  const spread = 'the standard deviation of one measurement of them, above 0';
  const standardDeviation = numberOf(
    fields.need('standardDeviation', spread),
    spread,
    (value) => value > 0 && isOfRealSize(value),
  );
  const beyond = 'the value beyond which walls were taken';
  const cutoff = numberOf(fields.need('cutoff', beyond), beyond, isOfRealSize);
  return {
    ...present({ walls, mean, standardDeviation, cutoff }),
  };
}
