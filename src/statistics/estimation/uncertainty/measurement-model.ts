import { StatisticsError } from '../../statistics-error.js';
import type { InputQuantity } from './input-quantity.js';

/** How a result follows from its inputs, by name. */
export type MeasurementModel<Name extends string> = (inputs: Readonly<Record<Name, number>>) => number;

/** The inputs' values by name, in a record that may be written to. */
export function valuesByName<Name extends string>(
  where: string,
  inputs: readonly InputQuantity<Name>[],
): Record<Name, number> {
  const values = Object.fromEntries(inputs.map((input) => [input.name, input.value])) as Record<Name, number>;
  if (Object.keys(values).length !== inputs.length)
    throw new StatisticsError(where, 'out-of-range', 'needs a different name for each input');
  return values;
}
