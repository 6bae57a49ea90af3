import { reasonInWords } from '../../labels/index.js';
import { countThreats } from '../../opinion/evidence.js';
import type { Opinion } from '../../opinion/opinion.js';
import type { Threat } from '../../opinion/threats/threat.js';
import { decimalsOf, levelInWords } from '../../words/movement.js';
import { countInWords, numberInWords } from '../../words/quantity.js';

/**
 * The verdict and the primary numbers in a few lines, for a terminal.
 *
 * @example summaryInWords(opinion).split('\n')[0] // 'Ten wet walls and a device'
 */
export function summaryInWords(opinion: Opinion): string {
  const { protocol, verdict, threats } = opinion;
  return [
    protocol.title,
    '',
    verdict.sentence,
    '',
    `Verdict:   ${verdict.code}`,
    `Evidence:  ${verdict.evidence} (${threatsInWords(threats)})`,
    ...primaryLines(opinion),
    '',
  ].join('\n');
}

function threatsInWords(threats: readonly Threat[]): string {
  const count = countThreats(threats);
  const parts = (['fatal', 'serious', 'minor'] as const).flatMap((each) =>
    count[each] === 0 ? [] : [`${count[each]} ${each}`],
  );
  return parts.length === 0 ? 'no threat counts against it' : `threats that count against it: ${parts.join(', ')}`;
}

function primaryLines({ primary, protocol }: Opinion): readonly string[] {
  if (primary.kind === 'not-estimated') return [`Primary:   not estimated, because ${reasonInWords(primary.reason)}`];
  const { estimate, interval, pValue, degreesOfFreedom, unit, walls } = primary.estimate;
  const number = (value: number) => numberInWords(value, decimalsOf(interval));
  const limits = ` (${levelInWords(interval.level)} interval ${number(interval.lower)} to ${number(interval.upper)})`;
  return [
    `Primary:   ${number(estimate)} ${unit}${limits}, treated walls’ change less untreated walls’`,
    `           ${walls.treated} treated and ${countInWords(walls.untreated, 'untreated wall')}, ${degreesInWords(degreesOfFreedom)}p ${pInWords(pValue)}`,
    ...(protocol.margin === undefined ? [] : [`Margin:    ${protocol.margin} ${unit}`]),
  ];
}

function degreesInWords(degreesOfFreedom: number | undefined): string {
  if (degreesOfFreedom === undefined) return '';
  return `${Number.isInteger(degreesOfFreedom) ? degreesOfFreedom : degreesOfFreedom.toFixed(1)} degrees of freedom, `;
}

function pInWords(pValue: number | undefined): string {
  if (pValue === undefined) return 'not computed';
  return pValue < 0.0001 ? 'below 0.0001' : `= ${pValue.toPrecision(2)}`;
}
