import { decimalsWritten, differenceInWords } from '../../words/quantity.js';

/** A difference that the plan states, with the decimals that it states. */
export function statedDifference(value: number, unit: string): string {
  return differenceInWords(value, unit, decimalsWritten(value));
}

/** A difference that was computed, to two decimals: nobody plans to more. */
export function computedDifference(value: number, unit: string): string {
  return differenceInWords(value, unit, Math.abs(value) >= 100 ? 0 : 2);
}
