import type { Answer, Estimate } from '../../analysis/index.js';
import { limits } from '../../findings/limits.js';
import { present } from '../../plain/present.js';
import { formatPValue, formatSigned } from '../../words/format-number.js';
import { decimalsOf, levelInWords } from '../../words/movement.js';
import type { Facts } from './facts.js';
import type { Direction, Measure } from './threat.js';

export function unitOf({ trial }: Facts): string {
  return trial.protocol.outcome.unit;
}

export function numbersOf({ estimate, interval, pValue, unit }: Estimate): string {
  const inside = [
    ...(interval
      ? [
          `${levelInWords(interval.level)} interval ${formatSigned(interval.lower, decimalsOf(interval))} to ${formatSigned(interval.upper, decimalsOf(interval))}`,
        ]
      : []),
    ...(pValue === undefined ? [] : [formatPValue(pValue)]),
  ];
  const limitsText = inside.length === 0 ? '' : ` (${inside.join(', ')})`;
  return `${formatSigned(estimate, interval ? decimalsOf(interval) : 2)} ${unit}${limitsText}`;
}

export function measureOf({ estimate, interval, pValue, unit }: Estimate): Measure {
  return {
    value: estimate,
    unit,
    ...present({ interval, pValue }),
  };
}

/** How plainly a test that should find nothing finds something; nothing where it does not, or was not made. */
export function alarmOf(answer: Answer): 'minor' | 'serious' | undefined {
  return answer.kind === 'estimated' ? alarmAt(answer.estimate.pValue ?? 1) : undefined;
}

export function alarmAt(pValue: number): 'minor' | 'serious' | undefined {
  if (pValue < limits.plainAlarm.value) return 'serious';
  return pValue < limits.alarm.value ? 'minor' : undefined;
}

/** Towards the claim where the difference lies on the better side. */
export function pushOf({ trial }: Facts, estimate: number): Exclude<Direction, 'either way'> {
  const isBetter = trial.protocol.outcome.better === 'lower' ? estimate < 0 : estimate > 0;
  return isBetter ? 'towards the claim' : 'away from the claim';
}
