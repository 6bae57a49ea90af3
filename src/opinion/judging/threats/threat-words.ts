import type { Answer, Estimate } from '../../../analysis/index.js';
import { formatPValue, formatSigned } from '../../../charts/format-number.js';
import type { Facts } from '../../weaknesses/facts.js';
import { decimalsOf, levelInWords } from '../../words/movement.js';
import type { Judging, Threat } from '../judging.js';
import { carried, turnInWords, type Ways } from './turn-in-words.js';

export type Numbers = Omit<Judging, 'threats'>;

export function alphaOf({ trial }: Facts): number {
  return 1 - trial.protocol.confidence;
}

export function unitOf({ trial }: Facts): string {
  return trial.protocol.outcome.unit;
}

export function numbersOf({ estimate, interval, pValue, unit }: Estimate): string {
  const limits = interval
    ? ` (${levelInWords(interval.level)} interval ${formatSigned(interval.lower, decimalsOf(interval))} to ${formatSigned(interval.upper, decimalsOf(interval))}${pValue === undefined ? '' : `, ${formatPValue(pValue)}`})`
    : '';
  return `${formatSigned(estimate, interval ? decimalsOf(interval) : 2)} ${unit}${limits}`;
}

export function isSmall(facts: Facts, answer: Answer): boolean {
  return answer.kind === 'estimated' && (answer.estimate.pValue ?? 1) < alphaOf(facts);
}

/** Towards the claim where the difference lies on the better side. */
export function pushOf({ trial }: Facts, estimate: number): Exclude<Threat['direction'], 'either way'> {
  const isBetter = trial.protocol.outcome.better === 'lower' ? estimate < 0 : estimate > 0;
  return isBetter ? 'towards the claim' : 'away from the claim';
}

/** What a push of this direction would have to be; `each` where it acts on less than the whole difference. */
export function turnOf(
  facts: Facts,
  { turning }: Numbers,
  direction: Threat['direction'],
  { ways = carried, each = 1 }: { readonly ways?: Ways; readonly each?: number } = {},
): string {
  return turnInWords({ turning, direction, unit: unitOf(facts), ways, each });
}
