import type { SideChanges } from '../../findings/answer/side-changes.js';
import { formatNumber } from '../../words/format-number.js';

/** A difference of two sides, and what is needed to say it. */
export interface DifferenceOfSides {
  /** Treated walls' change less untreated walls' change. */
  readonly difference: number;
  readonly changes: SideChanges;
  readonly unit: string;
  readonly decimals: number;
  /** What to call a side; one `wall` where it has no more. */
  readonly walls: 'wall' | 'walls';
}

/**
 * A difference of changes as a householder says it: "the treated walls lost 2.60 % by mass more than the untreated walls".
 * Which words are true depends on which way both sides went.
 *
 * @example differenceInWords({ difference: -2.6, changes: { treated: -3.1, untreated: -0.5 }, unit: '% by mass', decimals: 2, walls: 'walls' })
 */
export function differenceInWords({ difference, changes, unit, decimals, walls }: DifferenceOfSides): string {
  const amount = `${formatNumber(Math.abs(difference), decimals)} ${unit}`;
  if (Number(Math.abs(difference).toFixed(Math.min(decimals, 6))) === 0) {
    return `the treated ${walls} changed as much as the untreated ${walls} did`;
  }
  if (changes.treated <= 0 && changes.untreated <= 0) {
    return `the treated ${walls} lost ${amount} ${difference < 0 ? 'more' : 'less'} than the untreated ${walls}`;
  }
  if (changes.treated >= 0 && changes.untreated >= 0) {
    return `the treated ${walls} gained ${amount} ${difference > 0 ? 'more' : 'less'} than the untreated ${walls}`;
  }
  return `measured against the untreated ${walls}, the treated ${walls} ${difference < 0 ? 'lost' : 'gained'} ${amount}`;
}
