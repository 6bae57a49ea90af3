import { decimalsWritten, differenceInWords } from '../../words/quantity.js';

/** A difference that the plan states, with the decimals that it states. */
export function statedDifference(value: number, unit: string): string {
  return differenceInWords(value, unit, decimalsWritten(value));
}

/** A difference that was computed, to two decimals: nobody plans to more. */
export function computedDifference(value: number, unit: string): string {
  return differenceInWords(value, unit, Math.abs(value) >= 100 ? 0 : 2);
}

/**
 * Never 0 for something that may happen.
 *
 * @param trials in which it was counted: what none of n showed has a chance below 3/n, with 95 % confidence
 */
export function inThousand(chance: number, trials?: number): string {
  const rounded = Math.round(1000 * chance);
  if (chance === 0 && trials !== undefined) return `under ${Math.max(1, Math.ceil(3000 / trials))}`;
  if (rounded === 0) return chance > 1e-9 ? 'under 1' : '0';
  return rounded === 1000 && chance < 1 - 1e-9 ? 'over 999' : `${rounded}`;
}

/** The same of a hundred, and never all of them where one may fail. */
export function inHundred(chance: number, trials?: number): string {
  const rounded = Math.round(100 * chance);
  const isCounted = trials !== undefined;
  if (chance === 0 && isCounted) return `under ${Math.max(1, Math.ceil(300 / trials))}`;
  if (chance === 1 && isCounted) return `over ${100 - Math.max(1, Math.ceil(300 / trials))}`;
  if (rounded === 0) return chance > 1e-9 ? 'under 1' : '0';
  return rounded === 100 && chance < 1 - 1e-9 ? 'over 99' : `${rounded}`;
}
